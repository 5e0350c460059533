import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import type { SqliteDatabase, SqliteStatement } from 'kysely';

/** The part of Node's own SQLite API that the store uses; two modules offer it. */
interface SqliteModule {
  readonly DatabaseSync: new (file: string) => {
    close(): void;
    readonly isTransaction: boolean;
    exec(sql: string): void;
    prepare(sql: string): {
      columns(): readonly unknown[];
      all(...parameters: unknown[]): unknown[];
      run(...parameters: unknown[]): { changes: number | bigint; lastInsertRowid: number | bigint };
      iterate(...parameters: unknown[]): IterableIterator<unknown>;
    };
  };
}

/** Statements kept ready: all that the store ever says, and room for those that differ only in how many rows they take. */
const PREPARED = 100;

const FIRST_NODE_WITH_SETTLED_SQLITE = 24;

/** A statement that has nothing to do. */
const NOTHING: ReturnType<SqliteDatabase['prepare']> = {
  reader: false,
  all: () => [],
  run: () => ({ changes: 0, lastInsertRowid: 0 }),
  iterate: () => [][Symbol.iterator](),
};

/** Node's own module where it is settled, and its port for older Nodes. */
async function sqliteModule(): Promise<SqliteModule> {
  const major = Number(process.versions.node.split('.')[0]);
  const name: string = major >= FIRST_NODE_WITH_SETTLED_SQLITE ? 'node:sqlite' : '@photostructure/sqlite';
  const found: unknown = await import(name);
  if (!isSqliteModule(found)) throw new Error(`${name} has no DatabaseSync; run npm install again.`);
  return found;
}

function isSqliteModule(module: unknown): module is SqliteModule {
  return typeof module === 'object' && module !== null && 'DatabaseSync' in module;
}

/**
 * Opens a database file, made where it is missing, in the shape that Kysely's own dialect takes.
 * Write-ahead log and full synchronising: a commit returns only after the disk was told to keep it.
 */
export async function openNodeSqlite(file: string): Promise<SqliteDatabase> {
  mkdirSync(dirname(file), { recursive: true });
  const database = await openPlainSqlite(file);
  try {
    database.exec('PRAGMA journal_mode = WAL');
    database.exec('PRAGMA synchronous = FULL');
    // Room for the whole list of 100,000 batches: a search reads all of it. Kibibytes, where negative.
    database.exec('PRAGMA cache_size = -32768');
    return database;
  } catch (error) {
    database.close();
    throw error;
  }
}

/** A database with a way to run what answers nothing. */
export interface PlainSqlite extends SqliteDatabase {
  /**
   * Runs statements without keeping them. What was prepared keeps a closed file open, for other programs too, until it is swept
   * up with the rest of the memory (seen with the port of Node's module for older Nodes); what is run here does not.
   */
  readonly exec: (sql: string) => void;
}

/** Opens a database file as it is, its way of keeping a journal left alone: for looking at it, and for copying it. */
export async function openPlainSqlite(file: string): Promise<PlainSqlite> {
  const { DatabaseSync } = await sqliteModule();
  const database = new DatabaseSync(file);
  // Wait for another process before anything that may need its lock.
  database.exec('PRAGMA busy_timeout = 5000');
  /** Ends a transaction whose own rollback failed; left open, it would lock everybody out. */
  const endLeftover = (): void => {
    if (database.isTransaction) database.exec('ROLLBACK');
  };
  const prepare = (sql: string): SqliteStatement => {
    const statement = database.prepare(sql);
    return {
      reader: statement.columns().length > 0,
      all: (parameters) => statement.all(...parameters),
      run: (parameters) => statement.run(...parameters),
      iterate: (parameters) => statement.iterate(...parameters),
    };
  };
  const prepared = new Map<string, SqliteStatement>();
  return {
    exec: (sql) => database.exec(sql),
    close: () => {
      endLeftover();
      database.close();
    },
    prepare: (sql) => {
      // There is one connection and its transactions do not nest.
      if (sql === 'begin') endLeftover();
      // A full disk ends the transaction by itself; a second rollback would hide what was wrong behind its own complaint.
      if (sql === 'rollback' && !database.isTransaction) return NOTHING;
      const kept = prepared.get(sql);
      // The one used last stands last.
      if (kept !== undefined) prepared.delete(sql);
      const statement = kept ?? prepare(sql);
      prepared.set(sql, statement);
      const [oldest] = prepared.keys();
      if (prepared.size > PREPARED && oldest !== undefined) prepared.delete(oldest);
      return statement;
    },
  };
}
