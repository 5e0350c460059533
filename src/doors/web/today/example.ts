import { parseLogFile } from '../../../exchange/log-file.ts';
import type { EventLog } from '../log/event-log.ts';

const files = import.meta.glob<string>('../../../../demo/larkenshaw.json', { query: '?raw', import: 'default' });

/** Takes the worked example into this device's log: an invented teaching dairy, its make under way moved to now. */
export async function openExample(log: EventLog): Promise<void> {
  const [load] = Object.values(files);
  if (load === undefined) throw new Error('The example is not part of this build.');
  await log.takeIn(parseLogFile(await load()));
}
