/**
 * Writes a small store of each released format as SQL text into tests/store/released, those that are missing; one that is there is
 * history and is never written again. Run it once after a format was added: `npx tsx scripts/write-released-store.ts`.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { Kysely, sql, SqliteDialect } from 'kysely';
import { parseLogFile } from '../src/exchange/log-file.ts';
import { ALL_KINDS } from '../src/record/keeping-events.ts';
import { canonicalText } from '../src/record/merge.ts';
import { openPlainSqlite } from '../src/store/node-sqlite.ts';
import { migrate, STORE_FORMAT, type Tables } from '../src/store/sql-schema.ts';

const FOLDER = new URL('../tests/store/released/', import.meta.url);
/** When the samples were made, as far as they say. */
const NOW_MS = 1_790_000_000_000;
/** What every sample holds: a copy that was written once. */
const events = parseLogFile(readFileSync(new URL('copy-1.ndjson', FOLDER), 'utf8'), ALL_KINDS);

for (let format = 1; format <= STORE_FORMAT; format++) {
  const target = new URL(`format-${format}.sql`, FOLDER);
  if (existsSync(target)) continue;
  writeFileSync(target, await sampleOf(format));
  console.log(`tests/store/released/format-${format}.sql written`);
}

/** A store as its first format kept it, brought forward to this one: what a house that began early has. */
async function sampleOf(format: number): Promise<string> {
  const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database: () => openPlainSqlite(':memory:') }) });
  const engine = { run: <T>(work: () => Promise<T>): Promise<T> => work(), now: () => sql<number>`${NOW_MS}` };
  try {
    await migrate({ db, engine, nowMs: NOW_MS, upTo: 1 });
    // The row that programs wait on came later.
    await sql`delete from store_format where format = 0`.execute(db);
    await fill(db);
    await migrate({ db, engine, nowMs: NOW_MS, upTo: format });
    return await dumpOf(db);
  } finally {
    await db.destroy();
  }
}

/** Rows as format 1 has them; later formats make of them what they make of everybody's. */
async function fill(db: Kysely<Tables>): Promise<void> {
  const last = new Map<string, number>();
  for (const [index, event] of events.entries()) {
    const n = (last.get(event.streamId) ?? 0) + 1;
    last.set(event.streamId, n);
    await sql`insert into events (position, id, stream_id, n, event) values (${index + 1}, ${event.id}, ${event.streamId}, ${n}, ${canonicalText(event)})`.execute(db); // prettier-ignore
  }
  for (const [streamId, n] of last) await sql`insert into streams (stream_id, last) values (${streamId}, ${n})`.execute(db); // prettier-ignore
}

/** Every table, index and row as statements that both engines take, one a line. */
async function dumpOf(db: Kysely<Tables>): Promise<string> {
  const made = await sql<{ type: string; name: string; sql: string }>`select type, name, sql from sqlite_master where sql is not null order by type desc, name`.execute(db); // prettier-ignore
  const lines: string[] = [];
  for (const { type, name, sql: statement } of made.rows) {
    lines.push(`${statement.replaceAll(/\s+/g, ' ')};`);
    if (type !== 'table') continue;
    const { rows } = await sql<Record<string, unknown>>`select * from ${sql.table(name)}`.execute(db);
    for (const row of rows) {
      const columns = Object.keys(row).map((column) => `"${column}"`);
      lines.push(
        `insert into "${name}" (${columns.join(', ')}) values (${Object.values(row).map(literal).join(', ')});`,
      );
    }
  }
  return `${lines.join('\n')}\n`;
}

function literal(value: unknown): string {
  if (value === null) return 'null';
  if (typeof value === 'number' || typeof value === 'bigint') return String(value);
  if (typeof value === 'string') return `'${value.replaceAll("'", "''")}'`;
  throw new TypeError('A sample holds whole numbers and text alone.');
}
