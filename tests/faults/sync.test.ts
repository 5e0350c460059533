import 'fake-indexeddb/auto';
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createApp } from '../../src/doors/server/app.ts';
import type { EventLog } from '../../src/doors/web/log/event-log.ts';
import { foldOnce } from '../../src/doors/web/log/fold-once.ts';
import type { ServedStore } from '../../src/store/kept-store.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { copySqlite, renewIdentity } from '../../src/store/sqlite-file.ts';
import { notingDevice } from '../store/sample-events.ts';
import { Network, openDevice, Tabs, until } from './devices.ts';

let folder: string;
let store: ServedStore;
let network: Network;
const opened: EventLog[] = [];

const file = (): string => join(folder, 'log.sqlite');
const openServer = async (): Promise<void> => {
  store = await openSqliteStore({ file: file(), nowMs: 0 });
};
const serverOf = (current: ServedStore): Network['ask'] => {
  const app = createApp({ store: current, shelf: { makes: [], broken: [] }, sums: new Map() });
  return (path, init) => Promise.resolve(app.request(path, init));
};
async function device(tabs?: Tabs, name?: string): Promise<EventLog> {
  const log = await openDevice(network, tabs, name);
  opened.push(log);
  return log;
}

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-sync-'));
  await openServer();
  network = new Network(serverOf(store));
});

afterEach(async () => {
  for (const log of opened.splice(0)) await log.close();
  await store.close();
  rmSync(folder, { recursive: true });
});

const note = (text: string, streamId = 'batch:ash') => ({ kind: 'noted', body: { text }, streamId, person: 'M' });
const textsOf = (log: EventLog, streamId = 'batch:ash'): string[] =>
  foldOnce(log.snapshot().streams.get(streamId) ?? []).noted.map(({ text }) => text);
const onServer = async (): Promise<number> => (await store.readAll({ after: 0 })).length;

describe('the log of a device', () => {
  it('has a note on the device before anything else, network or none', async () => {
    network.isUp = false;
    const log = await device();
    const seen: number[] = [];
    log.subscribe(() => seen.push(log.snapshot().streams.get('batch:ash')?.length ?? 0));
    await log.record(note('foam'));
    expect(textsOf(log)).toEqual(['foam']);
    expect(seen).toContain(1);
    expect(log.savedWhere()).toBe('here');
    expect(log.snapshot().problems).toEqual([]);
    network.isUp = true;
    await log.synchroniseNow();
    expect(log.savedWhere()).toBe('here and server');
    expect(await onServer()).toBe(1);
  });

  it('keeps the same snapshot until something changes', async () => {
    const log = await device();
    await log.synchroniseNow();
    expect(log.snapshot()).toBe(log.snapshot());
    const before = log.snapshot().streams;
    await log.synchroniseNow();
    expect(log.snapshot().streams).toBe(before);
  });

  it('brings two devices to the same story, whoever wrote what while apart', async () => {
    const tablet = await device();
    const phone = await device();
    network.isUp = false;
    await tablet.recordAll([note('by the tablet'), note('and again')]);
    await phone.record(note('by the phone'));
    network.isUp = true;
    await tablet.synchroniseNow();
    await phone.synchroniseNow();
    network.ring();
    await tablet.synchroniseNow();
    expect(textsOf(tablet).sort()).toEqual(['and again', 'by the phone', 'by the tablet']);
    expect(foldOnce(tablet.snapshot().streams.get('batch:ash')!)).toEqual(foldOnce(phone.snapshot().streams.get('batch:ash')!)); // prettier-ignore
  });

  it('sends again what it had no answer for, and nothing is there twice', async () => {
    const log = await device();
    await log.synchroniseNow();
    network.isUp = false;
    await log.recordAll(Array.from({ length: 450 }, (_, index) => note(`look ${index}`)));
    network.isUp = true;
    for (let lost = 1; lost <= 6; lost++) {
      network.answersToLose = lost % 3;
      await log.synchroniseNow();
    }
    network.answersToLose = 0;
    await log.synchroniseNow();
    expect(log.snapshot().waiting).toBe(0);
    expect(await onServer()).toBe(450);
    expect(textsOf(log)).toHaveLength(450);
  });

  it('loses nothing when the server is restarted in the middle of a make', async () => {
    const log = await device();
    await log.record(note('before'));
    await log.synchroniseNow();
    await store.close();
    network.isUp = false;
    await log.record(note('while it was away'));
    await openServer();
    network.replaceServer(serverOf(store));
    network.isUp = true;
    await log.record(note('after'));
    await log.synchroniseNow();
    expect(await onServer()).toBe(3);
    const other = await device();
    await other.synchroniseNow();
    expect(textsOf(other)).toEqual(['before', 'while it was away', 'after']);
  });

  it('has everything after the browser was closed in the middle of a make, still to be sent', async () => {
    network.isUp = false;
    const tabs = new Tabs();
    const first = await openDevice(network, tabs, 'one-browser');
    await first.recordAll([note('foam'), note('sour')]);
    await first.close();
    const again = await device(tabs, 'one-browser');
    expect(textsOf(again)).toEqual(['foam', 'sour']);
    expect(again.snapshot().waiting).toBe(2);
    network.isUp = true;
    await again.synchroniseNow();
    expect(await onServer()).toBe(2);
  });

  it.each([false, true])(
    'shows a note of one tab in the other, and sends it once (without locks: %s)',
    async (isWithoutLocks) => {
      const tabs = new Tabs();
      tabs.isWithoutLocks = isWithoutLocks;
      const name = `two-tabs-${isWithoutLocks}`;
      const left = await device(tabs, name);
      const right = await device(tabs, name);
      await left.record(note('by the left'));
      await right.record(note('by the right'));
      await until('both tabs show both', () => textsOf(left).length === 2 && textsOf(right).length === 2);
      await until('both know it is saved', () => [left, right].every((tab) => tab.savedWhere() === 'here and server'));
      expect(await onServer()).toBe(2);
      // Tabs that kept each other awake would ask for ever.
      const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 100));
      let requests = -1;
      for (let looks = 0; looks < 20 && network.requests !== requests; looks++) {
        requests = network.requests;
        await pause();
      }
      expect(network.requests).toBe(requests);
    },
  );

  it('knows how far its clock is from the server’s, keeps what that clock said, and still knows after it was closed', async () => {
    const tabs = new Tabs();
    tabs.now = () => Date.now() - 3 * 3_600_000;
    const slow = await openDevice(network, tabs, 'slow-clock');
    const before = tabs.now();
    const event = await slow.record(note('foam'));
    await slow.synchroniseNow();
    const { clockOffset } = slow.snapshot();
    expect(Math.abs((clockOffset?.offsetMs ?? 0) - 3 * 3_600_000)).toBeLessThanOrEqual(
      (clockOffset?.plusMinusMs ?? 0) + 2,
    );
    expect(event.happenedAt - before).toBeLessThan(1000);
    await slow.close();
    network.isUp = false;
    expect((await device(tabs, 'slow-clock')).snapshot().clockOffset).toEqual(clockOffset);
    const right = await device();
    network.isUp = true;
    await right.synchroniseNow();
    expect(Math.abs(right.snapshot().clockOffset?.offsetMs ?? NaN)).toBeLessThan(1000);
  });

  it('never sends the worked example, and says so', async () => {
    const log = await device();
    await log.record(note('in the example', 'batch:demo-birch'));
    await log.record(note('mine'));
    await log.synchroniseNow();
    expect((await store.listStreams()).map(({ streamId }) => streamId)).toEqual(['batch:ash']);
    expect(log.savedWhere('batch:demo-birch')).toBe('here');
    expect(log.savedWhere('batch:ash')).toBe('here and server');
  });

  it('keeps an event that the server refuses, and says why', async () => {
    const original = notingDevice('probe')('foam');
    await store.append([original]);
    network.isUp = false;
    const log = await device();
    await log.takeIn([{ ...original, body: { text: 'altered' } }]);
    network.isUp = true;
    await log.synchroniseNow();
    await log.synchroniseNow();
    expect(log.snapshot().setAside).toMatchObject([{ id: original.id }]);
    expect(log.snapshot().problems.join()).toContain('other content');
    expect(log.savedWhere()).toBe('here');
    expect((await store.readAll({ after: 0 }))[0]?.event).toEqual(original);
  });

  it('refuses a bad note with its field and writes nothing of the step', async () => {
    const log = await device();
    await expect(log.recordAll([note('fine'), { ...note(''), body: { words: 1 } }])).rejects.toThrow(/body\.text/);
    expect(log.snapshot().streams.size).toBe(0);
  });

  it.each(['by vatside restore', 'by hand'])(
    'gives back what a server lost when an older backup took the place of its store %s, the other devices’ entries too',
    async (how) => {
      const tablet = await device();
      const phone = await device();
      await tablet.recordAll([note('before the backup'), note('of birch', 'batch:birch')]);
      await tablet.synchroniseNow();
      await copySqlite({ from: file(), to: `${file()}.backup` });
      await phone.synchroniseNow();
      await phone.record(note('after the backup'));
      await phone.synchroniseNow();
      await tablet.synchroniseNow();
      network.isUp = false;

      await store.close();
      copyFileSync(`${file()}.backup`, file());
      const isByCommand = how === 'by vatside restore';
      if (isByCommand) await renewIdentity(file());
      await openServer();
      // Others note as much as the backup lacks, so that no count tells of it; a copy by hand can be told by the count alone.
      if (isByCommand) await store.append([notingDevice('probe')('by the probe')]);
      network.replaceServer(serverOf(store));
      network.isUp = true;
      // The phone that wrote it is out of reach; the tablet has read it and is enough.
      await tablet.record(note('after the restore'));
      await tablet.synchroniseNow();
      await tablet.synchroniseNow();
      expect(await onServer()).toBe(isByCommand ? 5 : 4);
      expect(tablet.savedWhere()).toBe('here and server');
      const newcomer = await device();
      await newcomer.synchroniseNow();
      const all = [
        'before the backup',
        'after the backup',
        'after the restore',
        ...(isByCommand ? ['by the probe'] : []),
      ];
      await phone.synchroniseNow();
      await phone.synchroniseNow();
      for (const log of [newcomer, tablet, phone]) expect(new Set(textsOf(log))).toEqual(new Set(all));
    },
  );

  it('goes into a file and comes back from it', async () => {
    const log = await device();
    await log.recordAll([note('foam'), note('sour')]);
    const { parseLogFile } = await import('../../src/exchange/log-file.ts');
    network.isUp = false;
    const other = await device();
    await other.takeIn(parseLogFile(log.fileText()));
    expect(textsOf(other)).toEqual(['foam', 'sour']);
    const [first] = other.snapshot().streams.get('batch:ash') ?? [];
    const set = await other.record({ kind: 'retracted', body: { replaces: first!.id }, streamId: 'batch:ash' });
    expect(set.clock > first!.clock).toBe(true);
    expect(textsOf(other)).toEqual(['sour']);
  });
});
