import type { IDBPDatabase } from 'idb';
import { isDemoStream, type Event } from '../record/event.ts';
import type { ClockOffset } from '../record/clock-offset.ts';
import { clockAfter } from '../record/clock.ts';
import { EventConflictError, isSameEvent } from '../record/merge.ts';
import type { DeviceState } from '../record/new-event.ts';
import { FORMAT, STORES, upgrade, type Change, type KeptDevice, type Schema, type SetAside } from './browser-schema.ts';
import { Connection } from './connection.ts';
import type { Appended, EventStore } from './port.ts';

/** An event with its place in this browser's whole log, growing; holes are possible. */
export interface PositionedEvent {
  readonly position: number;
  readonly event: Event;
}

const DEVICE_KEY = 'this';

/** The event store of a browser, with what a device needs beside the log: outbox, cursors, its own counter and clock. */
export interface BrowserStore extends EventStore {
  /** Events of all streams after a position, in the order this browser wrote them, at most `limit` of them. */
  readWritten(input: { readonly after: number; readonly limit?: number }): Promise<PositionedEvent[]>;
  /**
   * Makes events and keeps them in one step with the device's counter and clock, so that two tabs never take the same
   * number. `make` must be quick and wait for nothing. Events of demo streams do not enter the outbox.
   */
  writeOwn(
    make: (device: DeviceState) => { readonly events: readonly Event[]; readonly device: DeviceState },
  ): Promise<Event[]>;
  /**
   * Takes in events from a server together with the new cursor of their stream. Where the cursor is no longer at `after`, another tab
   * has started over or read on meanwhile: the events are taken, the cursor stays.
   */
  takePulled(input: {
    readonly streamId: string;
    readonly events: readonly Event[];
    readonly after: number;
    readonly cursor: number;
    /** The device's wall clock, milliseconds UTC. */
    readonly nowMs: number;
  }): Promise<Appended[]>;
  /** Own events that wait for a server, oldest first. */
  outbox(input: { readonly limit: number }): Promise<Event[]>;
  outboxSize(): Promise<number>;
  /** Takes events out of the outbox: a server has them. */
  acknowledge(ids: readonly string[]): Promise<void>;
  /** Takes events out of the outbox that a server refused; they stay in the log, with the reason kept. */
  setAside(refused: readonly SetAside[]): Promise<void>;
  /** Puts what was refused back into the outbox, in its old place. */
  sendAgain(): Promise<void>;
  listSetAside(): Promise<SetAside[]>;
  cursors(): Promise<ReadonlyMap<string, number>>;
  /** Takes the server for one that has nothing: all that this device holds is sent again, and every stream read from its start. */
  startOver(): Promise<void>;
  device(): Promise<DeviceState>;
  /** How far this device's clock was from the server's when it was last measured. */
  clockOffset(): Promise<ClockOffset | null>;
  keepClockOffset(offset: ClockOffset): Promise<void>;
  /** The server's mark up to which this device has heard of all that grew; null while it never was told one. */
  pulledMark(): Promise<number | null>;
  keepPulledMark(mark: number): Promise<void>;
  /** The identity of the store that this device's cursors are of; null while none was told. */
  serverStore(): Promise<string | null>;
  keepServerStore(storeId: string): Promise<void>;
}

/**
 * Opens the browser's store.
 * @param input.name  of the database; one per app and test
 * @param input.newDeviceId  taken the first time this browser opens it
 */
export async function openBrowserStore(input: {
  readonly name: string;
  readonly newDeviceId: string;
}): Promise<BrowserStore> {
  const connection = new Connection<Schema>({
    name: input.name,
    format: FORMAT,
    upgrade,
  });
  const changed = <T>(change: (transaction: Change) => Promise<T>): Promise<T> =>
    connection.use((db) => changedIn(db, change));
  await connection.use((db) => db.count('device'));
  const firstDevice: KeptDevice = { deviceId: input.newDeviceId, deviceSeq: 0, clock: undefined };
  const kept = (more: Pick<KeptDevice, 'clockOffset' | 'pulledMark' | 'serverStore'>): Promise<void> =>
    changed(async (change) => {
      const store = change.objectStore('device');
      await store.put({ ...((await store.get(DEVICE_KEY)) ?? firstDevice), ...more }, DEVICE_KEY);
    });

  return {
    append: (events) => changed((change) => appendAll(change, events)),

    writeOwn: (make) =>
      changed(async (change) => {
        const store = change.objectStore('device');
        const device = (await store.get(DEVICE_KEY)) ?? firstDevice;
        const made = make(device);
        await store.put({ ...device, ...made.device }, DEVICE_KEY);
        await appendAll(change, made.events);
        for (const event of made.events) {
          if (isDemoStream(event.streamId)) continue;
          const position = await change.objectStore('events').index('byId').getKey(event.id);
          await change.objectStore('outbox').put({ id: event.id, position: position ?? 0 });
        }
        return [...made.events];
      }),

    takePulled: ({ streamId, events, after, cursor, nowMs }) =>
      changed(async (change) => {
        const answers = await appendAll(change, events);
        const cursors = change.objectStore('cursors');
        if (((await cursors.get(streamId))?.n ?? 0) === after) await cursors.put({ streamId, n: cursor });
        // What a server shows, it has: nothing of this needs to be sent.
        for (const event of events) await change.objectStore('outbox').delete(event.id);
        const device = (await change.objectStore('device').get(DEVICE_KEY)) ?? firstDevice;
        const clock = clockAfter({ own: device.clock, seen: events, nowMs });
        await change.objectStore('device').put({ ...device, clock }, DEVICE_KEY);
        return answers;
      }),

    outbox: ({ limit }) =>
      connection.use(async (db) => {
        const transaction = db.transaction(['outbox', 'events']);
        const waiting = await transaction.objectStore('outbox').index('byPosition').getAll(null, limit);
        const events = transaction.objectStore('events');
        const placed = await Promise.all(waiting.map(({ position }) => events.get(position)));
        return placed.flatMap((item) => (item === undefined ? [] : [item.event]));
      }),

    outboxSize: () => connection.use((db) => db.count('outbox')),

    acknowledge: (ids) =>
      changed(async (change) => {
        for (const id of ids) await change.objectStore('outbox').delete(id);
      }),

    setAside: (refused) =>
      changed(async (change) => {
        for (const item of refused) {
          await change.objectStore('outbox').delete(item.id);
          await change.objectStore('setAside').put(item);
        }
      }),

    sendAgain: () =>
      changed(async (change) => {
        const aside = change.objectStore('setAside');
        const byId = change.objectStore('events').index('byId');
        for (const id of await aside.getAllKeys()) {
          const position = await byId.getKey(id);
          if (position !== undefined) await change.objectStore('outbox').put({ id, position });
          await aside.delete(id);
        }
      }),

    listSetAside: () => connection.use((db) => db.getAll('setAside')),

    async cursors() {
      const cursors = await connection.use((db) => db.getAll('cursors'));
      return new Map(cursors.map(({ streamId, n }) => [streamId, n]));
    },

    startOver: () =>
      changed(async (change) => {
        await change.objectStore('cursors').clear();
        for (let at = await change.objectStore('events').openCursor(); at !== null; at = await at.continue()) {
          const { id, streamId } = at.value;
          if (isDemoStream(streamId) || (await change.objectStore('setAside').get(id)) !== undefined) continue;
          await change.objectStore('outbox').put({ id, position: at.key });
        }
      }),

    device: () =>
      changed(async (change) => {
        const store = change.objectStore('device');
        const device = (await store.get(DEVICE_KEY)) ?? firstDevice;
        await store.put(device, DEVICE_KEY);
        return device;
      }),

    async clockOffset() {
      return (await connection.use((db) => db.get('device', DEVICE_KEY)))?.clockOffset ?? null;
    },

    keepClockOffset: (clockOffset) => kept({ clockOffset }),

    async pulledMark() {
      return (await connection.use((db) => db.get('device', DEVICE_KEY)))?.pulledMark ?? null;
    },

    keepPulledMark: (pulledMark) => kept({ pulledMark }),

    async serverStore() {
      return (await connection.use((db) => db.get('device', DEVICE_KEY)))?.serverStore ?? null;
    },

    keepServerStore: (serverStore) => kept({ serverStore }),

    async readStream({ streamId, after, limit }) {
      const range = IDBKeyRange.bound([streamId, after], [streamId, Number.MAX_SAFE_INTEGER], true, false);
      const placed = await connection.use((db) => db.getAllFromIndex('events', 'byStream', range, limit));
      return placed.map(({ n, event }) => ({ n, event }));
    },

    find: (ids) =>
      connection.use(async (db) => {
        const byId = db.transaction('events').store.index('byId');
        const found = await Promise.all([...new Set(ids)].map((id) => byId.get(id)));
        return found.flatMap((placed) => (placed === undefined ? [] : [placed.event]));
      }),

    listStreams: () => connection.use((db) => db.getAll('streams')),

    streamState: async (streamId) =>
      (await connection.use((db) => db.get('streams', streamId))) ?? { streamId, last: 0 },

    async readAll({ after, limit }) {
      const from = after === 0 ? null : IDBKeyRange.lowerBound([after.event.streamId, after.n], true);
      const placed = await connection.use((db) => db.getAllFromIndex('events', 'byStream', from, limit));
      return placed.map(({ n, event }) => ({ n, event }));
    },

    // Positions are the mark: this database lets one change after the other in, so that none comes late.
    readGrown: ({ since, most }) =>
      connection.use(async (db) => {
        const transaction = db.transaction(['events', 'streams']);
        const events = transaction.objectStore('events');
        const mark = (await events.openKeyCursor(null, 'prev'))?.key ?? 0;
        if (since === undefined || since >= mark) return { streams: [], mark };
        const placed = await events.getAll(IDBKeyRange.bound(since, mark, true));
        // The one that has grown last stands first.
        const ids = [...new Set(placed.reverse().map(({ streamId }) => streamId))].slice(0, most);
        const states = await Promise.all(ids.map((id) => transaction.objectStore('streams').get(id)));
        return { streams: states.flatMap((state) => state ?? []), mark };
      }),

    readWritten: ({ after, limit }) =>
      connection.use(async (db) => {
        const range = IDBKeyRange.lowerBound(after, true);
        const transaction = db.transaction('events');
        const [keys, placed] = await Promise.all([
          transaction.store.getAllKeys(range, limit),
          transaction.store.getAll(range, limit),
        ]);
        return placed.map(({ event }, index) => ({ position: keys[index] ?? 0, event }));
      }),

    close: () => connection.close(),
  };
}

/** One change of the store: all of it is on the disk when this returns, or none of it. */
async function changedIn<T>(db: IDBPDatabase<Schema>, change: (transaction: Change) => Promise<T>): Promise<T> {
  const transaction = db.transaction(STORES, 'readwrite', { durability: 'strict' });
  try {
    const result = await change(transaction);
    await transaction.done;
    return result;
  } catch (error) {
    try {
      transaction.abort();
    } catch {
      // Already ended by the failure itself.
    }
    await transaction.done.catch(() => undefined);
    throw error;
  }
}

async function appendAll(change: Change, events: readonly Event[]): Promise<Appended[]> {
  const log = change.objectStore('events');
  const streams = change.objectStore('streams');
  const answers: Appended[] = [];
  for (const event of events) {
    const known = await log.index('byId').get(event.id);
    if (known !== undefined && !isSameEvent(known.event, event)) throw new EventConflictError(event.id);
    answers.push({ id: event.id, state: known === undefined ? 'added' : 'known' });
    if (known !== undefined) continue;
    const n = ((await streams.get(event.streamId))?.last ?? 0) + 1;
    await streams.put({ streamId: event.streamId, last: n });
    await log.add({ id: event.id, streamId: event.streamId, n, event });
  }
  return answers;
}
