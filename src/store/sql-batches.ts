import type { Kysely } from 'kysely';
import { batchSummary, isTelling, withoutMake, type BatchSummary } from '../record/batch-summary.ts';
import type { Event } from '../record/event.ts';
import type { Tables } from './sql-schema.ts';
import { storedEvent } from './stored-event.ts';

export const UNOPENED = 'unopened';

/** One row a stream of a batch. One whose opening has not come yet, or was taken back, is listed to nobody and followed like others. */
export interface BatchRow {
  batch_id: string;
  make_id: string;
  make_name: string;
  name: string;
  lot_code: string;
  zero_at: number;
  state: BatchSummary['state'] | typeof UNOPENED;
  finished_at: number | null;
  milk_l: number | null;
  cheese_kg: number | null;
  search: string;
}

/** Batches in one transaction of a relisting, and rows in one statement: well under every engine's limit of parameters. */
const PAGE = 80;
const BATCH = 'batch:';
export const isBatch = (streamId: string): boolean => streamId.startsWith(BATCH);
/** As `isBatch`, for statements. A range would not do: engines differ in how they order punctuation. */
export const BATCHES_LIKE = `${BATCH}%`;

/** Makes the table of batches with its indexes. */
export async function makeBatchTable(db: Kysely<Tables>): Promise<void> {
  await db.schema
    .createTable('batches')
    .addColumn('batch_id', 'text', (column) => column.primaryKey())
    .addColumn('make_id', 'text', (column) => column.notNull())
    .addColumn('make_name', 'text', (column) => column.notNull())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('lot_code', 'text', (column) => column.notNull())
    .addColumn('zero_at', 'bigint', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('finished_at', 'bigint')
    .addColumn('milk_l', 'double precision')
    .addColumn('cheese_kg', 'double precision')
    .addColumn('search', 'text', (column) => column.notNull())
    .execute();
  await db.schema.createIndex('batches_by_day').on('batches').columns(['zero_at', 'batch_id']).execute();
  await db.schema.createIndex('batches_by_make').on('batches').columns(['make_id', 'zero_at', 'batch_id']).execute();
}

/**
 * Brings the rows of batches up to events that were just written in this transaction. Most events are readings and
 * change nothing of a row: then nothing is asked of the store.
 * @param written.isNew  whether these are the stream's first events
 */
export async function relistGrown(
  db: Kysely<Tables>,
  written: ReadonlyMap<string, { readonly events: readonly Event[]; readonly isNew: boolean }>,
): Promise<void> {
  const changed = [...written].filter(([id, { events, isNew }]) => isBatch(id) && (isNew || events.some(({ kind }) => isTelling(kind)))); // prettier-ignore
  await relist(db, changed.map(([streamId]) => streamId)); // prettier-ignore
}

/**
 * Makes all rows anew from the log, a page of batches at a time. Batches may grow meanwhile.
 * @param input.inOne  runs one page as one transaction
 * @param input.onBatches  is told after each page how many batches are done
 * @returns how many batches were looked at
 */
export async function relistAll(input: {
  readonly inOne: <T>(work: (db: Kysely<Tables>) => Promise<T>) => Promise<T>;
  readonly onBatches?: (done: number) => void;
}): Promise<number> {
  const { inOne, onBatches } = input;
  let done = 0;
  for (let after = ''; ;) {
    const from = after;
    const ids = await inOne(async (db) => {
      const page = db.selectFrom('streams').select('stream_id').where('stream_id', '>', from).where('stream_id', 'like', BATCHES_LIKE).orderBy('stream_id').limit(PAGE); // prettier-ignore
      return (await page.execute()).map((row) => row.stream_id);
    });
    if (ids.length === 0) return done;
    // A transaction of its own, whose first statement writes: one that has read before may not write once another program did.
    await inOne(async (db) => {
      // Locked as an append locks them, in the order that it takes, so that no row is made of half of what is written.
      await db.updateTable('streams').set((row) => ({ last: row.ref('last') })).where('stream_id', 'in', ids).execute(); // prettier-ignore
      await relist(db, ids);
    });
    done += ids.length;
    onBatches?.(done);
    const last = ids.at(-1);
    if (last === undefined || ids.length < PAGE) return done;
    after = last;
  }
}

async function relist(db: Kysely<Tables>, batchIds: readonly string[]): Promise<void> {
  const rows: BatchRow[] = [];
  for (const batchId of batchIds) {
    const texts = await db.selectFrom('log').select('event').where('stream_id', '=', batchId).orderBy('n').execute();
    const events = texts.map(({ event }) => readShort(event));
    const summary = batchSummary(events);
    rows.push(summary === null ? unopenedRow(batchId) : rowOf(summary));
  }
  for (let from = 0; from < rows.length; from += PAGE) await keepRows(db, rows.slice(from, from + PAGE));
}

/** Of a stored event, what a summary needs. */
const readShort = (text: string): Event => withoutMake(storedEvent(text));

async function keepRows(db: Kysely<Tables>, rows: readonly BatchRow[]): Promise<void> {
  await db
    .insertInto('batches')
    .values(rows)
    .onConflict((conflict) =>
      conflict.column('batch_id').doUpdateSet((row) => ({
        make_id: row.ref('excluded.make_id'),
        make_name: row.ref('excluded.make_name'),
        name: row.ref('excluded.name'),
        lot_code: row.ref('excluded.lot_code'),
        zero_at: row.ref('excluded.zero_at'),
        state: row.ref('excluded.state'),
        finished_at: row.ref('excluded.finished_at'),
        milk_l: row.ref('excluded.milk_l'),
        cheese_kg: row.ref('excluded.cheese_kg'),
        search: row.ref('excluded.search'),
      })),
    )
    .execute();
}

/** Not every engine can keep the sign of number 0 in a text; in the event itself it stands. */
const plain = (text: string): string => text.replaceAll('\u0000', ' ');
/** Longest id of a make that an index is made of: some engines refuse rows whose index is long. */
const LONGEST_ID = 80;
/** The id of a make as the list keeps it. */
export const shortId = (id: string): string => plain(id).slice(0, LONGEST_ID);

const rowOf = (summary: BatchSummary): BatchRow => ({
  batch_id: summary.batchId,
  make_id: shortId(summary.makeId),
  make_name: plain(summary.makeName),
  name: plain(summary.name),
  lot_code: plain(summary.lotCode),
  zero_at: summary.zeroAt,
  state: summary.state,
  finished_at: summary.finishedAt,
  milk_l: summary.milkL,
  cheese_kg: summary.cheeseKg,
  search: summary.search,
});

/** It has no day yet, and stands behind all that have one: nobody's entries for makes that there are not may push those out of sight. */
const unopenedRow = (batchId: string): BatchRow => ({
  batch_id: batchId, make_id: '', make_name: '', name: '', lot_code: '', zero_at: 0, state: UNOPENED, finished_at: null, milk_l: null, cheese_kg: null, search: '',
}); // prettier-ignore
