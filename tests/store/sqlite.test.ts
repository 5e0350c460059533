import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openNodeSqlite } from '../../src/store/node-sqlite.ts';
import { StoreTooNewError } from '../../src/store/port.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { accessContract } from './access.ts';
import { storeContract } from './contract.ts';
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
