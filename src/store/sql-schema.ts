import { sql, type Kysely } from 'kysely';
import { makeBatchTable, relistAll, type BatchRow } from './sql-batches.ts';
import { StoreTooNewError } from './port.ts';
import type { SqlEngine } from './sql-engine.ts';

/** The one table of truth and its counters. `event` is the whole event as canonical JSON text. */
export interface Tables {
  log: { id: string; stream_id: string; n: number; event: string };
  /** `changed_at`: when `last` was raised, by the store's own clock; milliseconds UTC. */
  streams: { stream_id: string; last: number; changed_at: number };
  /** What a list of batches shows: worked out from the events, kept beside them, made anew whenever that is wanted. */
  batches: BatchRow;
  store_format: { format: number; applied_at: number };
  /** One row: which store this is. */
  store_identity: { id: string };
  paired_devices: {
    id: string;
    name: string;
    role: string;
    secret_hash: string;
    paired_at: number;
    seen_at: number;
    log_device: string | null;
  };
}

/** `newIdentity`: for a store that has none yet. */
type Migration = (db: Kysely<Tables>, newIdentity: string) => Promise<void>;

/** Formats of the store, in order; the first one is format 1. Append only: a released step is never edited. */
const MIGRATIONS: readonly Migration[] = [firstTables, logByPlace, withPairedDevices, withBatchList, withIdentity];

/** Which devices may ask a server that is shared: no secrets, only their hashes. */
async function withPairedDevices(db: Kysely<Tables>): Promise<void> {
  await db.schema
    .createTable('paired_devices')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('role', 'text', (column) => column.notNull())
    .addColumn('secret_hash', 'text', (column) => column.notNull())
    .addColumn('paired_at', 'bigint', (column) => column.notNull())
    .addColumn('seen_at', 'bigint', (column) => column.notNull())
    .addColumn('log_device', 'text')
    .execute();
}

export const STORE_FORMAT = MIGRATIONS.length;

async function firstTables(db: Kysely<Tables>): Promise<void> {
  await db.schema
    .createTable('events')
    .addColumn('position', 'integer', (column) => column.primaryKey())
    .addColumn('id', 'text', (column) => column.notNull().unique())
    .addColumn('stream_id', 'text', (column) => column.notNull())
    .addColumn('n', 'integer', (column) => column.notNull())
    .addColumn('event', 'text', (column) => column.notNull())
    .addUniqueConstraint('events_by_stream', ['stream_id', 'n'])
    .execute();
  await db.schema
    .createTable('streams')
    .addColumn('stream_id', 'text', (column) => column.primaryKey())
    .addColumn('last', 'integer', (column) => column.notNull())
    .execute();
}

/**
 * Places within streams are the only ones: a count over the whole store hides late commits behind a reader and is one
 * hot spot for many writers. The table has a new name, for engines that cannot drop and make one name in one step.
 */
async function logByPlace(db: Kysely<Tables>): Promise<void> {
  await db.schema
    .createTable('log')
    .addColumn('stream_id', 'text', (column) => column.notNull())
    .addColumn('n', 'bigint', (column) => column.notNull())
    .addColumn('id', 'text', (column) => column.notNull().unique())
    .addColumn('event', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint('log_by_place', ['stream_id', 'n'])
    .execute();
  await sql`insert into log (stream_id, n, id, event) select stream_id, n, id, event from events order by stream_id, n`.execute(db); // prettier-ignore
  await db.schema.dropTable('events').execute();
  await db.schema
    .alterTable('streams')
    .addColumn('changed_at', 'bigint', (column) => column.notNull().defaultTo(0))
    .execute();
  await db.schema.createIndex('streams_by_change').on('streams').column('changed_at').execute();
}

/** Lists and searches read one row a batch, and not the whole log. */
async function withBatchList(db: Kysely<Tables>): Promise<void> {
  await makeBatchTable(db);
  // Within the one transaction of the change of format; nobody else writes meanwhile.
  await relistAll({ inOne: (work) => work(db) });
}

/** Devices go by places that they have read up to, and must see when another store stands where theirs was. */
async function withIdentity(db: Kysely<Tables>, newIdentity: string): Promise<void> {
  await db.schema
    .createTable('store_identity')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .execute();
  await db.insertInto('store_identity').values({ id: newIdentity }).execute();
}

/** Formats begin at 1; the row of this one is what programs that start at once wait on. */
const LOCK_ROW = 0;

/**
 * Brings the store up to this program's format, one transaction for all missing steps, so that a crash leaves the
 * old format whole. Several programs may start at once: one goes through the steps, the others wait and find them done.
 * @throws StoreTooNewError when a newer program wrote it; nothing is changed then
 */
export async function migrate(input: {
  readonly db: Kysely<Tables>;
  readonly engine: SqlEngine;
  readonly nowMs: number;
  /** The format to stop at, for samples of older ones; this program's own where left out. */
  readonly upTo?: number;
  /** What a store that has no identity yet is given; by chance where left out. */
  readonly newIdentity?: string;
}): Promise<void> {
  const { db, engine, nowMs, upTo = STORE_FORMAT, newIdentity = crypto.randomUUID() } = input;
  await engine.run(async () => {
    await db.schema
      .createTable('store_format')
      .ifNotExists()
      .addColumn('format', 'integer', (column) => column.primaryKey())
      .addColumn('applied_at', 'bigint', (column) => column.notNull())
      .execute();
    if ((await formatOf(db)) >= upTo) return;
    await db.transaction().setIsolationLevel('read committed').execute((changing) => stepOn(changing, { nowMs, upTo, newIdentity })); // prettier-ignore
  });
}

async function stepOn(
  db: Kysely<Tables>,
  input: { readonly nowMs: number; readonly upTo: number; readonly newIdentity: string },
): Promise<void> {
  const { nowMs, upTo, newIdentity } = input;
  // The first statement writes, so that whoever comes second waits here and then sees what the first one did.
  await db
    .insertInto('store_format')
    .values({ format: LOCK_ROW, applied_at: nowMs })
    .onConflict((conflict) => conflict.column('format').doUpdateSet({ applied_at: nowMs }))
    .execute();
  const format = await formatOf(db);
  for (const [index, step] of MIGRATIONS.entries()) {
    if (index < format || index >= upTo) continue;
    await step(db, newIdentity);
    await db
      .insertInto('store_format')
      .values({ format: index + 1, applied_at: nowMs })
      .execute();
  }
}

/**
 * The format that a store has now.
 * @throws StoreTooNewError for one that this program does not know
 */
export async function formatOf(db: Kysely<Tables>): Promise<number> {
  const found = await db.selectFrom('store_format').select(sql<number | null>`max(format)`.as('format')).executeTakeFirst(); // prettier-ignore
  const format = found?.format ?? 0;
  if (format > STORE_FORMAT) throw new StoreTooNewError({ found: format, known: STORE_FORMAT });
  return format;
}
