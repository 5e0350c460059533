import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createApp } from '../../src/doors/server/app.ts';
import { readMakeFile } from '../../src/exchange/share/make-file.ts';
import { EARLIEST_AT, LATEST_AT } from '../../src/record/event.ts';
import type { KeptStore } from '../../src/store/kept-store.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { notingDevice } from '../store/sample-events.ts';
import { opened } from './attack/opened-make.ts';

/** What the attack found once, each by itself. */

let folder: string;
let store: KeptStore;
let appended: number;
let ask: (path: string, body: unknown) => Promise<{ readonly status: number; readonly text: string }>;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-found-'));
  store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: 0 });
  appended = 0;
  const counting: KeptStore = { ...store, append: (events) => ((appended += 1), store.append(events)) };
  const app = createApp({ store: counting, shelf: { makes: [], broken: [] }, sums: new Map() });
  ask = async (path, body) => {
    const answer = await app.request(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }); // prettier-ignore
    return { status: answer.status, text: await answer.text() };
  };
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

describe('a make that begins at a moment which no calendar can write', () => {
  const [make] = opened();
  if (make === undefined) throw new Error('No make.');
  const beginning = (zeroAt: number): object => ({ events: [{ ...make, body: { ...make.body, zeroAt } }] });

  it('is refused, where it was kept and no reading of it could be noted ever after', async () => {
    for (const zeroAt of [9e15, -9e15, LATEST_AT + 1, EARLIEST_AT - 1]) {
      const { text } = await ask('/api/events', beginning(zeroAt));
      expect(text).toMatch(/refused.*body\.zeroAt/);
      expect(text).not.toContain('is missing');
    }
    expect((await ask('/api/events', { events: [{ ...make, happenedAt: 9e15 }] })).text).toMatch(/refused.*happenedAt/);
  });

  it('is taken at the very ends of the calendar, and told there', async () => {
    for (const zeroAt of [LATEST_AT, EARLIEST_AT]) {
      const id = `at.${Math.sign(zeroAt) + 1}`;
      const event = { ...make, id, streamId: `batch:${id}`, body: { ...make.body, zeroAt } };
      expect((await ask('/api/events', { events: [event] })).text).toContain('added');
      const { status } = await ask(`/api/batches/${id}/readings`, { quantity: 'temperatureC', value: 36.4 });
      // Now is far from then; but it is said, and is no fault of the server.
      expect([zeroAt, status]).toEqual([zeroAt, zeroAt > 0 ? 400 : 200]);
    }
  });
});

describe('two hundred events that contradict what is there', () => {
  it('are refused one by one in two steps, not in two hundred', async () => {
    const note = notingDevice('tablet');
    const events = Array.from({ length: 200 }, (_, n) => note(`look ${n}`));
    await ask('/api/events', { events });
    appended = 0;
    const { text } = await ask('/api/events', { events: events.map((event) => ({ ...event, body: { text: 'altered' } })) }); // prettier-ignore
    expect(text.match(/refused/g)).toHaveLength(200);
    expect(appended).toBe(2);
    expect((await store.readStream({ streamId: 'batch:ash', after: 0, limit: 1000 })).map(({ event }) => event)).toEqual(events); // prettier-ignore
  });
});

describe('a make file', () => {
  it('of a hundred thousand lists in each other is refused with its reason', () => {
    const deep = '['.repeat(100_000) + ']'.repeat(100_000);
    for (const text of [deep, `{"id":"x","about":${deep}}`]) expect(() => readMakeFile(text)).toThrow('nested at most');
  });
});
