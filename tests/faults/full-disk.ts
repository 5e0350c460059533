import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { createAdaptorServer } from '@hono/node-server';
import type { SqliteDatabase } from 'kysely';
import { createApp } from '../../src/doors/server/app.ts';
import { seededRandom } from '../../src/numbers/random.ts';
import { openNodeSqlite } from '../../src/store/node-sqlite.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { Ledger } from './ledger.ts';
import { serve } from './served.ts';
import { Writer } from './writer.ts';

/** What a full disk came to. */
export interface FullFound {
  /** How often it was filled up and room made. */
  readonly times: number;
  readonly acknowledged: number;
  /** Answers that said there is no room. */
  readonly refused: number;
  /** Events that were refused for want of room and kept once there was some. */
  readonly keptAfter: number;
  readonly lost: number;
  readonly duplicated: number;
  readonly corrupt: number;
  readonly failures: readonly string[];
}

const MOST_PUSHES = 20_000;
const NO_ROOM = 507;

/** Pushes until there is no room, asks on a few times, makes room, and sees that everything goes on by itself. */
async function fillAndGoOn(input: {
  /** The server's address, which changes when it is started anew. */
  readonly urlNow: () => string;
  readonly writer: Writer;
  readonly ledger: Ledger;
  readonly makeRoom: () => Promise<void>;
}): Promise<{ readonly refused: number; readonly keptAfter: number; readonly failures: readonly string[] }> {
  const { urlNow, writer, ledger, makeRoom } = input;
  const failures: string[] = [];
  const before = writer.statuses.get(NO_ROOM) ?? 0;
  let pushes = 0;
  await writer.writeUntil(urlNow(), () => (writer.statuses.get(NO_ROOM) ?? 0) >= before + 5 || ++pushes > MOST_PUSHES);
  const refused = (writer.statuses.get(NO_ROOM) ?? 0) - before;
  if (refused === 0) failures.push('the disk never filled up');
  // Reading goes on while there is no room, and shows all that was acknowledged.
  await ledger.readOn(urlNow());
  ledger.hold(writer.acknowledged.values());
  const waiting = writer.waiting;
  await makeRoom();
  for (let tries = 0; tries < 20 && writer.waiting > 0; tries++) await writer.send(urlNow());
  if (writer.waiting > 0) failures.push(`with room again, ${writer.waiting} of ${waiting} events were still not taken`);
  await ledger.readOn(urlNow());
  ledger.hold(writer.acknowledged.values());
  return { refused, keptAfter: waiting - writer.waiting, failures };
}

/** The words of the answers: they must say what is wrong and that what was kept is safe, and nothing of the program's inside. */
function wordsWrong(writer: Writer): string[] {
  return [...writer.words].filter((text) => !/disk is full/.test(text) || !/safe/.test(text) || /SQLITE|\.ts:|node_modules/.test(text)); // prettier-ignore
}

/** A file that may not grow beyond so many pages, behind the server's own app: works everywhere. */
export async function pageLimit(input: {
  readonly folder: string;
  readonly seed: number;
  readonly times: number;
}): Promise<FullFound> {
  const { folder, seed, times } = input;
  let database: SqliteDatabase | undefined;
  const open = async (file: string): Promise<SqliteDatabase> => (database = await openNodeSqlite(file));
  const limit = (pages: number): void => void database?.prepare(`PRAGMA max_page_count = ${pages}`).all([]);
  const file = join(folder, 'limited.sqlite');
  const store = await openSqliteStore({ file, nowMs: 0, open });
  const app = createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map() });
  // What it tells its operator at every push would drown the figures.
  const complaint = console.error;
  console.error = () => undefined;
  const server = createAdaptorServer({ fetch: app.fetch });
  await once(server.listen(0, '127.0.0.1'), 'listening');
  const address = server.address();
  const url = typeof address === 'object' && address !== null ? `http://127.0.0.1:${address.port}` : '';
  const writer = new Writer({ deviceId: 'tablet', streamId: () => 'batch:ash', random: seededRandom(seed) });
  const ledger = new Ledger();
  const failures: string[] = [];
  let refused = 0;
  let keptAfter = 0;
  try {
    for (let time = 1; time <= times; time++) {
      limit(20 * time);
      const found = await fillAndGoOn({ urlNow: () => url, writer, ledger, makeRoom: () => Promise.resolve(limit(20 * time + 15)) }); // prettier-ignore
      refused += found.refused;
      keptAfter += found.keptAfter;
      failures.push(...found.failures);
    }
    await ledger.readAgain(url);
  } finally {
    console.error = complaint;
    server.close();
    if ('closeAllConnections' in server) server.closeAllConnections();
    await store.close();
  }
  return ended({ file, writer, ledger, times, refused, keptAfter, failures });
}

/** A file system of two megabytes in memory that really fills up, under the real server; only where this process may mount one. */
export async function smallDisk(input: {
  readonly folder: string;
  readonly seed: number;
  readonly times: number;
}): Promise<FullFound | null> {
  const { folder, seed, times } = input;
  const disk = join(folder, 'disk');
  mkdirSync(disk);
  const mount = (how: string): boolean => spawnSync('mount', ['-t', 'tmpfs', '-o', how, 'tmpfs', disk]).status === 0;
  if (process.getuid?.() !== 0 || !mount('size=2m')) return null;
  const writer = new Writer({ deviceId: 'tablet', streamId: () => 'batch:ash', random: seededRandom(seed) });
  const ledger = new Ledger();
  const failures: string[] = [];
  let refused = 0;
  let keptAfter = 0;
  let served = serve({ dataDir: disk });
  try {
    for (let time = 1; time <= times; time++) {
      if (time > 1) served = serve({ dataDir: disk });
      let url = await served.url;
      const makeRoom = async (): Promise<void> => {
        // Every second time the power goes as well while there is no room.
        if (time % 2 === 0) {
          await served.kill();
          served = serve({ dataDir: disk });
          url = await served.url;
          await ledger.readAgain(url);
        }
        mount(`remount,size=${2 + time}m`);
      };
      const found = await fillAndGoOn({ urlNow: () => url, writer, ledger, makeRoom });
      refused += found.refused;
      keptAfter += found.keptAfter;
      failures.push(...found.failures);
      await served.kill();
    }
    return await ended({ file: join(disk, 'vatside.sqlite'), writer, ledger, times, refused, keptAfter, failures });
  } finally {
    await served.kill();
    // Lazily: what was read last may still be held open for a moment.
    spawnSync('umount', ['-l', disk]);
  }
}

async function ended(input: {
  readonly file: string;
  readonly writer: Writer;
  readonly ledger: Ledger;
  readonly times: number;
  readonly refused: number;
  readonly keptAfter: number;
  readonly failures: readonly string[];
}): Promise<FullFound> {
  const { file, writer, ledger, times, refused, keptAfter, failures } = input;
  const database = await openNodeSqlite(file);
  const integrity = JSON.stringify(database.prepare('PRAGMA integrity_check').all([]));
  database.close();
  const isWhole = integrity === '[{"integrity_check":"ok"}]';
  return {
    times,
    acknowledged: writer.acknowledged.size,
    refused,
    keptAfter,
    lost: ledger.lost,
    duplicated: ledger.duplicated,
    corrupt: isWhole ? 0 : 1,
    failures: [...failures, ...writer.wrong, ...ledger.wrong, ...wordsWrong(writer), ...(isWhole ? [] : [integrity])],
  };
}
