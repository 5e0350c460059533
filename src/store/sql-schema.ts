import { sql, type Generated, type Kysely } from 'kysely';
import { StoreTooNewError } from './port.ts';

/** The one table of truth and its counters. `event` is the whole event as canonical JSON text. */
export interface Tables {
  events: { position: Generated<number>; id: string; stream_id: string; n: number; event: string };
  streams: { stream_id: string; last: number };
  store_format: { format: number; applied_at: number };
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
];

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
