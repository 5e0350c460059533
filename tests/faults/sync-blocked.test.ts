import 'fake-indexeddb/auto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createApp } from '../../src/doors/server/app.ts';
import type { EventLog } from '../../src/doors/web/log/event-log.ts';
import { copyText } from '../../src/exchange/copy/copy-text.ts';
import type { JsonObject } from '../../src/record/event.ts';
import type { KeptStore } from '../../src/store/kept-store.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { parseLogFile } from '../../src/exchange/log-file.ts';
import { dairy } from '../store/batch-list.ts';
import { notingDevice } from '../store/sample-events.ts';
import { Network, openDevice, Tabs } from './devices.ts';

/** What stands in the way of one thing must not stand in the way of the others. */

let folder: string;
let store: KeptStore;
let network: Network;
const opened: EventLog[] = [];
/** Questions (path and body) that the server answers with a fault of its own. */
let broken: RegExp | null;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-blocked-'));
  store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: 0 });
  broken = null;
  const app = createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map() });
  network = new Network((path, init) => Promise.resolve(broken?.test(`${path} ${typeof init?.body === 'string' ? init.body : ''}`) === true ? new Response('', { status: 500 }) : app.request(path, init))); // prettier-ignore
});
afterEach(async () => {
  for (const log of opened.splice(0)) await log.close();
  await store.close();
  rmSync(folder, { recursive: true });
});
async function device(): Promise<EventLog> {
  const log = await openDevice(network);
  opened.push(log);
  return log;
}
const note = (text: string) => ({ kind: 'noted', body: { text }, streamId: 'batch:ash', person: 'M' });
const onServer = async (streamId: string): Promise<number> => (await store.streamState(streamId)).last;

describe('what a device has noted', () => {
  it('reaches the server though a stream of somebody else cannot be read there', async () => {
    await store.append([notingDevice('desk')('foam', 'batch:birch')]);
    broken = /pages .*birch/;
    const log = await device();
    await log.record(note('sour'));
    await log.synchroniseNow();
    expect([await onServer('batch:ash'), log.snapshot().waiting, log.snapshot().isInTouch]).toEqual([1, 0, false]);
  });

  it('reaches the server behind an event that is nested as deep as a copy lets through', async () => {
    const deep = JSON.parse(`${'{"a":'.repeat(62)}1${'}'.repeat(62)}`) as JsonObject;
    const strange = { ...notingDevice('desk')('x'), kind: 'of-another-year', body: { deep } };
    // A copy lets it through: the device takes it in as from one.
    expect(parseLogFile(copyText(new Map([[strange.streamId, [strange]]])))).toEqual([strange]);
    network.isUp = false;
    const log = await device();
    await log.takeIn([strange]);
    await log.record(note('behind it'));
    network.isUp = true;
    await log.synchroniseNow();
    expect([await onServer('batch:ash'), log.snapshot().waiting]).toEqual([2, 0]);
  });

  it('never waits behind an event that is larger than any server takes: a file with one is refused', () => {
    const events = [{ ...notingDevice('desk')('x'), kind: 'of-another-year', body: { text: 'x'.repeat(300_000) } }];
    expect(() => parseLogFile(JSON.stringify({ format: 'vatside-log', version: 1, events }))).toThrow(/events\[0\].*at most 262144/); // prettier-ignore
  });
});

describe('a batch that a device wrote up long after', () => {
  it('goes on there when another device adds to it, though hundreds are newer', async () => {
    const { note: noted, open } = dairy();
    await store.append(Array.from({ length: 301 }, (_, day) => open(`Pot ${'abcdefghijklmnopqrst'[day % 20]}${'abcdefghijklmnopqrst'[Math.floor(day / 20)]}`, day))); // prettier-ignore
    const log = await device();
    await log.synchroniseNow();
    const { kind, body } = open('Rowan', -900);
    await log.record({ kind, body, streamId: 'batch:rowan', person: 'M' });
    await log.synchroniseNow();
    await store.append([noted('batch:rowan', 'tasted', { words: 'hazelnut' })]);
    await log.synchroniseNow();
    expect(log.snapshot().streams.get('batch:rowan')).toHaveLength(2);
    expect(log.snapshot().streams.has('batch:potaa')).toBe(false);
  });
});

describe('a server whose clock was an hour ahead and was set right', () => {
  afterEach(() => void vi.useRealTimers());

  it('tells a device that was away meanwhile what was noted before the hour that it knows of', async () => {
    const [start, hour] = [1_790_000_000_000, 3_600_000];
    vi.useFakeTimers({ toFake: ['Date'], now: start + hour });
    const tabs = new Tabs();
    let at = start;
    tabs.now = () => at;
    const log = await openDevice(network, tabs);
    opened.push(log);
    await log.synchroniseNow();
    await log.synchroniseNow();
    vi.setSystemTime(start + 60_000);
    await store.append([notingDevice('desk')('foam')]);
    for (const later of [2 * hour, 3 * hour]) {
      vi.setSystemTime(start + later);
      at = start + later;
      await log.synchroniseNow();
    }
    expect(log.snapshot().streams.get('batch:ash')).toHaveLength(1);
  });
});
