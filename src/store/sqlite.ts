import { Kysely, sql, SqliteDialect, type SqliteDatabase } from 'kysely';
import { openNodeSqlite } from './node-sqlite.ts';
import type { KeptStore } from './kept-store.ts';
import { sqlAccess } from './sql-access.ts';
import { sqlBatchList } from './sql-batch-list.ts';
import type { SqlEngine } from './sql-engine.ts';
import { sqlIdentity } from './sql-identity.ts';
import { sqlEventStore } from './sql-log.ts';
import { migrate, type Tables } from './sql-schema.ts';

/** One writer at a time, who waits for the file inside the engine; and all who open the file stand on one machine. */
const engine: SqlEngine = { run: (work) => work(), now: () => sql<number>`${Date.now()}` };

/**
 * The event store in one SQLite file.
 *
 * @param input.file  path of the database file; its folder is made where it is missing
 * @param input.nowMs  written beside a change of the store's format
 * @param input.open  opens the database itself; another one is given by tests that make it fail
 * @throws StoreTooNewError when a newer program wrote the file; nothing is changed then
 */
export async function openSqliteStore(input: {
  readonly file: string;
  readonly nowMs: number;
  readonly open?: (file: string) => Promise<SqliteDatabase>;
}): Promise<KeptStore> {
  const { file, nowMs, open = openNodeSqlite } = input;
  const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database: () => open(file) }) });
  try {
    await migrate({ db, engine, nowMs });
  } catch (error) {
    await db.destroy();
    throw error;
  }
  return {
    ...sqlEventStore({ db, engine }),
    ...sqlIdentity({ db, engine }),
    access: sqlAccess({ db, engine }),
    batches: sqlBatchList({ db, engine }),
  };
}
