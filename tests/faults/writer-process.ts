// Appends notes one by one and says "n <number>" after each is acknowledged. Killed from outside.
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { notingDevice } from '../store/sample-events.ts';

const [file = '', deviceId = ''] = process.argv.slice(2);
const store = await openSqliteStore({ file, nowMs: 0 });
const note = notingDevice(deviceId);
for (let count = 0; ; count++) {
  const event = note(`look ${count}`);
  await store.append([event]);
  process.stdout.write(`${event.id}\n`);
}
