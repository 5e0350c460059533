import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { SqliteDatabase } from 'kysely';
import { describe, expect, it } from 'vitest';
import { openNodeSqlite } from '../../src/store/node-sqlite.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { notingDevice } from '../store/sample-events.ts';

/** Counts down statements; at zero the next one fails, and so do those after it when the fault is lasting. */
interface Fault {
  left: number;
  readonly isLasting: boolean;
}

class DiskError extends Error {}

function failingDatabase(database: SqliteDatabase, fault: Fault): SqliteDatabase {
  return {
    close: () => database.close(),
    prepare(sql) {
      const statement = database.prepare(sql);
      const counted = <T>(run: () => T): T => {
        fault.left--;
        if (fault.left === -1 || (fault.isLasting && fault.left < 0)) throw new DiskError(`no room: ${sql}`);
        return run();
      };
      return {
        reader: statement.reader,
        all: (parameters) => counted(() => statement.all(parameters)),
        run: (parameters) => counted(() => statement.run(parameters)),
        iterate: (parameters) => statement.iterate(parameters),
      };
    },
  };
}

async function inFolder<T>(run: (file: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'vatside-nth-'));
  try {
    return await run(join(folder, 'log.sqlite'));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Fails the nth statement of appending three events; tries again or closes; then opens the file again and looks. */
async function appendWithFault(input: {
  readonly nth: number;
  readonly isLasting: boolean;
  readonly isClosing: boolean;
}): Promise<'failed' | 'done'> {
  const { nth, isLasting, isClosing } = input;
  return inFolder(async (file) => {
    const note = notingDevice('tablet');
    const before = [note('before')];
    const batch = [note('one'), note('two', 'batch:birch'), note('three')];
    const fault: Fault = { left: Number.MAX_SAFE_INTEGER, isLasting };
    const open = async (path: string): Promise<SqliteDatabase> => failingDatabase(await openNodeSqlite(path), fault);
    const store = await openSqliteStore({ file, nowMs: 0, open });
    await store.append(before);
    fault.left = nth;
    const outcome = await store.append(batch).then(
      () => 'done' as const,
      () => 'failed' as const,
    );
    fault.left = Number.MAX_SAFE_INTEGER;
    if (!isClosing) {
      // The same store goes on working, and the retry is harmless.
      await store.append(batch);
      expect(await store.readAll({ after: 0 })).toHaveLength(4);
    }
    await store.close();

    const again = await openSqliteStore({ file, nowMs: 0 });
    const kept = (await again.readAll({ after: 0 })).map(({ event }) => event.id);
    const expected = outcome === 'done' || !isClosing ? [...before, ...batch] : before;
    expect(kept.toSorted()).toEqual(expected.map(({ id }) => id).toSorted());
    const streams = await again.listStreams();
    expect(streams.reduce((sum, stream) => sum + stream.last, 0)).toBe(kept.length);
    await again.append(batch);
    expect(await again.readAll({ after: 0 })).toHaveLength(4);
    await again.close();
    return outcome;
  });
}

describe('an append whose nth statement fails', () => {
  it.each([
    { isLasting: false, isClosing: false },
    { isLasting: false, isClosing: true },
    { isLasting: true, isClosing: false },
    { isLasting: true, isClosing: true },
  ])('writes all or nothing for every n, and the retry completes it ($isLasting, $isClosing)', async (how) => {
    let nth = 0;
    while ((await appendWithFault({ nth, ...how })) === 'failed') nth++;
    // begin, both streams, the format, known ids, places for one and for two events, events, the list of batches, commit: each of them has failed once.
    expect(nth).toBe(11);
  });
});

describe('opening a new store whose nth statement fails', () => {
  it('leaves a file that opens cleanly for every n', async () => {
    let nth = 0;
    for (let isFailing = true; isFailing; nth++) {
      isFailing = await inFolder(async (file) => {
        const fault: Fault = { left: nth, isLasting: true };
        const open = async (path: string): Promise<SqliteDatabase> =>
          failingDatabase(await openNodeSqlite(path), fault);
        const outcome = await openSqliteStore({ file, nowMs: 0, open }).then(
          async (store) => {
            await store.close();
            return false;
          },
          () => true,
        );
        const again = await openSqliteStore({ file, nowMs: 0 });
        await again.append([notingDevice('tablet')('foam')]);
        expect(await again.listStreams()).toEqual([{ streamId: 'batch:ash', last: 1 }]);
        await again.close();
        return outcome;
      });
    }
    expect(nth).toBeGreaterThan(6);
  });
});
