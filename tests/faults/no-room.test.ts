import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { createApp } from '../../src/doors/server/app.ts';
import type { EventLog } from '../../src/doors/web/log/event-log.ts';
import { foldOnce } from '../../src/doors/web/log/fold-once.ts';
import { isKept } from '../../src/doors/web/log/not-kept.ts';
import type { ListedStore } from '../../src/store/batch-list.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { Network, openDevice, Tabs } from './devices.ts';

const note = (text: string) => ({ kind: 'noted', body: { text }, streamId: 'batch:ash', person: 'table 3' });
const textsOf = (log: EventLog): string[] =>
  foldOnce(log.snapshot().streams.get('batch:ash') ?? []).noted.map(({ text }) => text);

let closing: (() => Promise<void>)[] = [];
afterEach(async () => {
  vi.restoreAllMocks();
  for (const close of closing.reverse()) await close();
  closing = [];
});

async function network(answers: {
  status: number | null;
}): Promise<{ readonly network: Network; readonly store: ListedStore }> {
  const store = await openSqliteStore({ file: ':memory:', nowMs: 0 });
  closing.push(() => store.close());
  const app = createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map() });
  const around = new Network((path, init) =>
    Promise.resolve(
      path === '/api/events' && answers.status !== null
        ? new Response('{}', { status: answers.status })
        : app.request(path, init),
    ),
  );
  return { network: around, store };
}

async function device(on: Network, tabs?: Tabs, name?: string): Promise<EventLog> {
  const log = await openDevice(on, tabs, name);
  closing.push(() => log.close());
  return log;
}

describe('a server whose disk is full', () => {
  it('takes nothing, and the tablet keeps every note, says so, and says nothing more once all went through', async () => {
    const answers: { status: number | null } = { status: 507 };
    const { network: net, store } = await network(answers);
    const tablet = await device(net);
    await tablet.recordAll([note('foam on the milk'), note('a clean break')]);
    await tablet.synchroniseNow();
    expect(tablet.snapshot()).toMatchObject({ isServerFull: true, isInTouch: true, waiting: 2, setAside: [], problems: [], notKept: null }); // prettier-ignore
    expect(textsOf(tablet)).toEqual(['foam on the milk', 'a clean break']);
    expect(tablet.savedWhere('batch:ash')).toBe('here');
    await tablet.record(note('the whey ran clear'));
    await tablet.synchroniseNow();
    expect(tablet.snapshot()).toMatchObject({ isServerFull: true, waiting: 3 });

    answers.status = null;
    await tablet.synchroniseNow();
    expect(tablet.snapshot()).toMatchObject({ isServerFull: false, waiting: 0, problems: [] });
    expect(tablet.savedWhere('batch:ash')).toBe('here and server');
    expect(await store.readAll({ after: 0 })).toHaveLength(3);
  });

  it.each([500, 503])('is not what an answer %i means', async (status) => {
    const { network: net } = await network({ status });
    const tablet = await device(net);
    await tablet.record(note('foam'));
    await tablet.synchroniseNow();
    expect(tablet.snapshot()).toMatchObject({ isServerFull: false, isInTouch: false, waiting: 1, problems: [] });
  });
});

describe('a device without room', () => {
  const fill = (): void =>
    void vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('The current transaction exceeded its quota limitations.', 'QuotaExceededError');
    });

  it('shows nothing as noted that it did not keep, says why, and keeps it once there is room', async () => {
    const { network: net, store } = await network({ status: null });
    const tabs = new Tabs();
    const tablet = await openDevice(net, tabs, 'full-tablet');
    await tablet.record(note('foam'));
    fill();
    expect(await isKept(tablet.record(note('a clean break')))).toBe(false);
    await expect(tablet.record(note('a clean break'))).rejects.toThrow(/quota/);
    expect(textsOf(tablet)).toEqual(['foam']);
    expect(tablet.snapshot().notKept).toMatchObject({ isFull: true });
    vi.restoreAllMocks();
    expect(await isKept(tablet.record(note('a clean break')))).toBe(true);
    expect(tablet.snapshot().notKept).toBeNull();
    await tablet.synchroniseNow();
    await tablet.close();
    // The number that the lost note would have had is the next one's: nothing is missing in between.
    const again = await device(net, tabs, 'full-tablet');
    expect(textsOf(again)).toEqual(['foam', 'a clean break']);
    expect((await store.readAll({ after: 0 })).map(({ event }) => event.deviceSeq)).toEqual([0, 1]);
  });

  it('says what does not come in from others, and takes it in once there is room', async () => {
    const { network: net } = await network({ status: null });
    const phone = await device(net);
    const tablet = await device(net);
    await phone.record(note('from the phone'));
    await phone.synchroniseNow();
    await tablet.synchroniseNow();
    await phone.record(note('and again'));
    await phone.synchroniseNow();
    fill();
    await tablet.synchroniseNow();
    expect(textsOf(tablet)).toEqual(['from the phone']);
    expect(tablet.snapshot().problems).toEqual(['This device has no room left: what other devices note comes in again once there is some.']); // prettier-ignore
    vi.restoreAllMocks();
    await tablet.synchroniseNow();
    expect(textsOf(tablet)).toEqual(['from the phone', 'and again']);
    expect(tablet.snapshot().problems).toEqual([]);
  });

  it('goes on failing loudly where a note itself is wrong', async () => {
    const { network: net } = await network({ status: null });
    const tablet = await device(net);
    await expect(isKept(tablet.record({ ...note(''), body: { words: 1 } }))).rejects.toThrow(/body\.text/);
    expect(tablet.snapshot().notKept).toBeNull();
  });
});
