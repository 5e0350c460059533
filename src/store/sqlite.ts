import { Kysely, sql, SqliteDialect, type SqliteDatabase } from 'kysely';
import { openNodeSqlite } from './node-sqlite.ts';
import type { KeptStore } from './kept-store.ts';
import { StoreBusyError } from './port.ts';
import { PATIENT, retrying, type Patience } from './retry.ts';
import { sqlAccess } from './sql-access.ts';
import { sqlBatchList } from './sql-batch-list.ts';
import type { SqlEngine } from './sql-engine.ts';
import { sqlIdentity } from './sql-identity.ts';
import { sqlEventStore } from './sql-log.ts';
import { migrate, type Tables } from './sql-schema.ts';

/** One writer at a time, who waits for the file inside the engine; and all who open the file stand on one machine. */
const engine: SqlEngine = {
  run: (work) =>
    work().catch((error: unknown) => {
      throw isBusy(error) ? new StoreBusyError(error) : error;
    }),
  now: () => sql<number>`${Date.now()}`,
};

/**
 * SQLite's own number for a file that another program holds, in the lower eight bits of its longer ones.
 * @source SQLite documentation, Result and Error Codes, SQLITE_BUSY (5) [from memory, not seen]
 */
const SQLITE_BUSY = 5;

/** Opening waits for a change of format that another program has begun: some five minutes, as each try waits five seconds by itself. */
const OPENING: Patience = { ...PATIENT, tries: 60, firstPauseMs: 50 };

/**
 * The event store in one SQLite file.
 *
 * @param input.file  path of the database file; its folder is made where it is missing
 * @param input.nowMs  written beside a change of the store's format
 * @param input.open  opens the database itself; another one is given by tests that make it fail
 * @throws StoreTooNewError when a newer program wrote the file, nothing is changed then; StoreBusyError when another
 *   program has held it for minutes
 */
export async function openSqliteStore(input: {
  readonly file: string;
  readonly nowMs: number;
  readonly open?: (file: string) => Promise<SqliteDatabase>;
}): Promise<KeptStore> {
  const { file, nowMs, open = openNodeSqlite } = input;
  const db = await retrying({
    work: () => ready(() => open(file), nowMs),
    isPassing: (error) => error instanceof StoreBusyError,
    patience: OPENING,
  });
  return {
    ...sqlEventStore({ db, engine }),
    ...sqlIdentity({ db, engine }),
    access: sqlAccess({ db, engine }),
    batches: sqlBatchList({ db, engine }),
  };
}

async function ready(open: () => Promise<SqliteDatabase>, nowMs: number): Promise<Kysely<Tables>> {
  const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database: open }) });
  try {
    await migrate({ db, engine, nowMs });
    return db;
  } catch (error) {
    await db.destroy();
    throw error;
  }
}

const isBusy = (error: unknown): boolean =>
  error instanceof Error && 'errcode' in error && typeof error.errcode === 'number' && (error.errcode & 0xff) === SQLITE_BUSY; // prettier-ignore
