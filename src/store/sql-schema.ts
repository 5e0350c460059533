import { sql, type Generated, type Kysely } from 'kysely';
import { StoreTooNewError } from './port.ts';

/** The one table of truth and its counters. `event` is the whole event as canonical JSON text. */
export interface Tables {
  events: { position: Generated<number>; id: string; stream_id: string; n: number; event: string };
  streams: { stream_id: string; last: number };
  store_format: { format: number; applied_at: number };
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

type Migration = (db: Kysely<Tables>) => Promise<void>;

/** Formats of the store, in order; the first one is format 1. Append only: a released step is never edited. */
const MIGRATIONS: readonly Migration[] = [
  async (db) => {
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
  },
  withPairedDevices,
];

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

/**
 * Brings the store up to this program's format, one transaction for all missing steps, so that a crash leaves the
 * old format whole.
 * @throws StoreTooNewError when a newer program wrote it
 */
export async function migrate(input: { readonly db: Kysely<Tables>; readonly nowMs: number }): Promise<void> {
  await input.db.transaction().execute(async (db) => {
    await db.schema
      .createTable('store_format')
      .ifNotExists()
      .addColumn('format', 'integer', (column) => column.primaryKey())
      .addColumn('applied_at', 'integer', (column) => column.notNull())
      .execute();
    const found = await db.selectFrom('store_format').select(sql<number | null>`max(format)`.as('format')).executeTakeFirst(); // prettier-ignore
    const format = found?.format ?? 0;
    if (format > STORE_FORMAT) throw new StoreTooNewError({ found: format, known: STORE_FORMAT });
    for (const [index, step] of MIGRATIONS.entries()) {
      if (index < format) continue;
      await step(db);
      await db
        .insertInto('store_format')
        .values({ format: index + 1, applied_at: input.nowMs })
        .execute();
    }
  });
}
