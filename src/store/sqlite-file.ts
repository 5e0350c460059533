/** A store's SQLite file as a file: copied while it is written to, looked at before it is trusted, freed before it is replaced. */
import { existsSync, statSync } from 'node:fs';
import { openPlainSqlite, type PlainSqlite } from './node-sqlite.ts';

/** What stands in a store's file. */
export interface SqliteLook {
  /** Format of the store; 0 where it is no store of ours. */
  readonly format: number;
  readonly streams: number;
  readonly events: number;
}

/** A file that is no whole SQLite database; says what the engine found. */
export class DamagedFileError extends Error {
  constructor(input: { readonly file: string; readonly found: string }) {
    super(`${input.file} is not a whole store: ${input.found}. Nothing was changed. Take another copy.`);
    this.name = 'DamagedFileError';
  }
}

/** Another program has the file open. */
export class FileInUseError extends Error {
  constructor(file: string) {
    super(`${file} is being used by a running program. Stop it first (Ctrl+C where "vatside serve" runs); nothing was changed.`); // prettier-ignore
    this.name = 'FileInUseError';
  }
}

/**
 * Writes a copy of a store as it stands at one moment; whoever writes to it meanwhile is not held up. The copy is complete when
 * this returns, but may not be on the disk yet: the caller tells the disk to keep it.
 * @param input.to  a path where nothing is
 * @source SQLite documentation, VACUUM INTO: the copy is of one read transaction; it is not synchronised by the engine
 */
export async function copySqlite(input: { readonly from: string; readonly to: string }): Promise<void> {
  await inFile(input.from, (database) => {
    database.exec(`VACUUM INTO '${input.to.replaceAll("'", "''")}'`);
  });
}

/**
 * Looks a file through from end to end.
 * @param told  what the file is called where it does not fit; its own name where left out
 * @throws DamagedFileError where anything in it is not as it must be
 */
export async function lookAtSqlite(file: string, told = file): Promise<SqliteLook> {
  const damaged = (found: unknown): DamagedFileError =>
    new DamagedFileError({ file: told, found: found instanceof Error ? found.message : String(found) });
  try {
    return await inFile(file, (database) => {
      const [first] = texts(database, 'PRAGMA integrity_check(1)');
      if (first !== 'ok') throw damaged(first);
      const tables = texts(database, `SELECT name FROM sqlite_master WHERE type = 'table'`);
      if (!['store_format', 'streams'].every((name) => tables.includes(name)))
        return { format: 0, streams: 0, events: 0 };
      return {
        format: number(database, 'SELECT max(format) AS it FROM store_format'),
        streams: number(database, 'SELECT count(*) AS it FROM streams WHERE last > 0'),
        events: number(database, 'SELECT sum(last) AS it FROM streams'),
      };
    });
  } catch (error) {
    throw error instanceof DamagedFileError ? error : damaged(error);
  }
}

/**
 * Makes one whole file of a store that nobody uses: what stands beside it in the write-ahead log goes into it.
 * @throws FileInUseError while another program has it open; DamagedFileError
 */
export async function settleSqlite(file: string, told = file): Promise<void> {
  await inFile(file, (database) => {
    // Only the last one who has the file open may change how its journal is kept.
    try {
      database.exec('PRAGMA journal_mode = DELETE');
    } catch (error) {
      const found = error instanceof Error ? error.message : String(error);
      throw /locked|busy/.test(found) ? new FileInUseError(told) : new DamagedFileError({ file: told, found });
    }
  });
}

/** Gives the file of a store that nobody uses another identity; one of an older format gets its first when it is opened. */
export async function renewIdentity(file: string): Promise<void> {
  await inFile(file, (database) => {
    const has = texts(database, `SELECT name FROM sqlite_master WHERE name = 'store_identity'`).length > 0;
    if (has) database.exec(`UPDATE store_identity SET id = '${crypto.randomUUID()}'`);
  });
}

/** True where a write-ahead log with something in it lies beside the file: it is a store at work, or what is left of one. */
export const hasLogBeside = (file: string): boolean => existsSync(`${file}-wal`) && statSync(`${file}-wal`).size > 0;

async function inFile<T>(file: string, work: (database: PlainSqlite) => T): Promise<T> {
  const database = await openPlainSqlite(file);
  try {
    return work(database);
  } finally {
    database.close();
  }
}

const rows = (database: PlainSqlite, sql: string): Record<string, unknown>[] =>
  database.prepare(sql).all([]).map((row) => (typeof row === 'object' && row !== null ? { ...row } : {})); // prettier-ignore
const texts = (database: PlainSqlite, sql: string): string[] => rows(database, sql).map((row) => String(Object.values(row)[0])); // prettier-ignore
const number = (database: PlainSqlite, sql: string): number => Number(rows(database, sql)[0]?.['it'] ?? 0);
