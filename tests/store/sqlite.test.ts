import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { canonicalText } from '../../src/record/merge.ts';
import { openNodeSqlite } from '../../src/store/node-sqlite.ts';
import { StoreBusyError, StoreTooNewError } from '../../src/store/port.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { accessContract } from './access.ts';
import { batchListContract, dairy } from './batch-list.ts';
import { storeContract } from './contract.ts';
import { identityContract } from './identity.ts';
import { notingDevice } from './sample-events.ts';

const nowMs = 1_790_000_000_000;
const newFolder = (): string => mkdtempSync(join(tmpdir(), 'vatside-store-'));

const newPlace = () => {
  const folder = newFolder();
  return {
    open: () => openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs }),
    remove: () => Promise.resolve(rmSync(folder, { recursive: true })),
  };
};
storeContract('SQLite', newPlace);
accessContract('SQLite', newPlace);
identityContract('SQLite', newPlace);
batchListContract('SQLite', () => {
  let current: ReturnType<typeof newPlace> | undefined;
  return {
    open: () => (current ??= newPlace()).open(),
    async remove() {
      await current?.remove();
      current = undefined;
    },
  };
});

describe('the SQLite file', () => {
  it('is kept in full synchronising and a write-ahead log', async () => {
    const folder = newFolder();
    const database = await openNodeSqlite(join(folder, 'log.sqlite'));
    expect(database.prepare('PRAGMA journal_mode').all([])).toMatchObject([{ journal_mode: 'wal' }]);
    expect(database.prepare('PRAGMA synchronous').all([])).toMatchObject([{ synchronous: 2 }]);
    database.close();
    rmSync(folder, { recursive: true });
  });

  it('is left alone by a program that is older than its format', async () => {
    const folder = newFolder();
    const file = join(folder, 'log.sqlite');
    await (await openSqliteStore({ file, nowMs })).close();
    const database = await openNodeSqlite(file);
    database.prepare('insert into store_format (format, applied_at) values (99, 0)').run([]);
    database.close();
    await expect(openSqliteStore({ file, nowMs })).rejects.toThrow(StoreTooNewError);
    await expect(openSqliteStore({ file, nowMs })).rejects.toThrow(/format 99.*Nothing was changed/);
    rmSync(folder, { recursive: true });
  });

  it('takes nothing from a server that is still running when a newer program has changed its format', async () => {
    const folder = newFolder();
    const file = join(folder, 'log.sqlite');
    const store = await openSqliteStore({ file, nowMs });
    const note = notingDevice('desk');
    await store.append([note('warm')]);
    const database = await openNodeSqlite(file);
    database.prepare('insert into store_format (format, applied_at) values (99, 0)').run([]);
    database.close();
    await expect(store.append([note('foam'), note('foam', 'batch:birch')])).rejects.toThrow(StoreTooNewError);
    expect(await store.listStreams()).toEqual([{ streamId: 'batch:ash', last: 1 }]);
    await store.close();
    rmSync(folder, { recursive: true });
  });

  it('is waited for while another program changes its format, and says so where a note has waited too long', async () => {
    const folder = newFolder();
    const file = join(folder, 'log.sqlite');
    const other = await openNodeSqlite(file);
    const impatient = async (at: string) => {
      const database = await openNodeSqlite(at);
      database.prepare('PRAGMA busy_timeout = 10').all([]);
      return database;
    };
    other.prepare('begin immediate').run([]);
    setTimeout(() => other.prepare('commit').run([]), 300);
    const store = await openSqliteStore({ file, nowMs, open: impatient });
    const event = notingDevice('desk')('foam');
    other.prepare('begin immediate').run([]);
    await expect(store.append([event])).rejects.toThrow(StoreBusyError);
    other.prepare('commit').run([]);
    expect(await store.append([event])).toEqual([{ id: event.id, state: 'added' }]);
    other.close();
    await store.close();
    rmSync(folder, { recursive: true });
  });

  it('of format 1 gives everything back in its places, and goes on counting from there', async () => {
    const folder = newFolder();
    const file = join(folder, 'log.sqlite');
    const note = notingDevice('tablet');
    const events = [note('foam'), note('lovely', 'batch:birch'), note('sour'), dairy().open('Cedar', 4)];
    const old = await openNodeSqlite(file);
    // As the first program made it.
    for (const statement of [
      'create table store_format (format integer primary key, applied_at integer not null)',
      'create table events (position integer primary key, id text not null unique, stream_id text not null, n integer not null, event text not null, constraint events_by_stream unique (stream_id, n))',
      'create table streams (stream_id text primary key, last integer not null)',
      'insert into store_format (format, applied_at) values (1, 1790000000000)',
      "insert into streams (stream_id, last) values ('batch:ash', 2), ('batch:birch', 1), ('batch:cedar', 1)",
    ]) {
      old.prepare(statement).run([]);
    }
    for (const [index, event] of events.entries()) {
      const row = [event.id, event.streamId, [1, 1, 2, 1][index], canonicalText(event)];
      old.prepare('insert into events (id, stream_id, n, event) values (?, ?, ?, ?)').run(row);
    }
    old.close();
    const store = await openSqliteStore({ file, nowMs });
    expect(await store.append([...events, note('later')])).toMatchObject([{ state: 'known' }, { state: 'known' }, { state: 'known' }, { state: 'known' }, { state: 'added' }]); // prettier-ignore
    const ash = await store.readStream({ streamId: 'batch:ash', after: 0 });
    expect(ash.map(({ n, event }) => [n, event.id])).toEqual([[1, events[0]!.id], [2, events[2]!.id], [3, expect.any(String)]]); // prettier-ignore
    expect(await store.readStream({ streamId: 'batch:birch', after: 0 })).toEqual([{ n: 1, event: events[1] }]);
    // What it held before there was a list stands in the list.
    expect(await store.batches.list({ search: 'lk-4', limit: 9 })).toMatchObject([{ batchId: 'batch:cedar', name: 'Cedar', last: 1 }]); // prettier-ignore
    await store.close();
    rmSync(folder, { recursive: true });
  });

  it('has its list of batches made anew while another program writes to it', async () => {
    const folder = newFolder();
    const file = join(folder, 'log.sqlite');
    const { open } = dairy();
    const server = await openSqliteStore({ file, nowMs });
    await server.append([open('Ash', 1)]);
    const other = await openNodeSqlite(file);
    let writes = 0;
    const relisting = await openSqliteStore({
      file,
      nowMs,
      open: async (path) => {
        const database = await openNodeSqlite(path);
        const prepare: typeof database.prepare = (sql) => {
          const statement = database.prepare(sql);
          if (!sql.startsWith('select "stream_id" from "streams"')) return statement;
          // Between what is read and what is written the other one writes.
          const all: typeof statement.all = (parameters) => {
            const rows = statement.all(parameters);
            other.prepare('update streams set changed_at = changed_at + 1').run([]);
            writes++;
            return rows;
          };
          return { ...statement, all };
        };
        return { close: () => database.close(), prepare };
      },
    });
    expect([await relisting.batches.relist(), writes]).toEqual([1, 1]);
    for (const one of [relisting, server, other]) await one.close();
    rmSync(folder, { recursive: true });
  });

  it('is shared by two programs that take turns, without a lost or doubled number', async () => {
    const folder = newFolder();
    const file = join(folder, 'log.sqlite');
    const a = await openSqliteStore({ file, nowMs });
    const b = await openSqliteStore({ file, nowMs });
    const tablet = notingDevice('tablet');
    const phone = notingDevice('phone');
    for (let round = 0; round < 10; round++) {
      await a.append([tablet('a')]);
      await b.append([phone('b')]);
    }
    expect((await a.readStream({ streamId: 'batch:ash', after: 0 })).map(({ n }) => n)).toHaveLength(20);
    await a.close();
    await b.close();
    rmSync(folder, { recursive: true });
  });
});

describe('what a server asks for, again and again', () => {
  const HOUR = 3_600_000;
  afterEach(() => void vi.useRealTimers());

  it.each([
    ['set back', -HOUR],
    ['set forward', HOUR],
    ['left alone', 0],
  ])('names what grew on either side of a clock that is %s, and half a minute later nothing', async (_, shift) => {
    vi.useFakeTimers({ toFake: ['Date'], now: nowMs });
    const folder = newFolder();
    const store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs });
    const note = notingDevice('tablet');
    const { mark } = await store.readGrown({ since: undefined });
    await store.append([note('before', 'batch:ash')]);
    vi.setSystemTime(nowMs + shift + 200);
    await store.append([note('after', 'batch:birch')]);
    vi.setSystemTime(nowMs + shift + 400);
    const first = await store.readGrown({ since: mark });
    expect(first.streams.map(({ streamId }) => streamId).sort()).toEqual(['batch:ash', 'batch:birch']);
    vi.setSystemTime(nowMs + shift + 31_000);
    const second = await store.readGrown({ since: first.mark });
    vi.setSystemTime(nowMs + shift + 31_500);
    const quiet = await store.readGrown({ since: second.mark });
    // What was written before the clock went back lies ahead of it for an hour, and its place says that it is old.
    expect(quiet.streams).toEqual(shift < 0 ? [{ streamId: 'batch:ash', last: 1 }] : []);
    await store.close();
    rmSync(folder, { recursive: true });
  });
});
