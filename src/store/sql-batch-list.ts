import { sql, type Kysely, type SelectQueryBuilder } from 'kysely';
import { searchWords } from '../record/search-text.ts';
import type { BatchList, BatchQuery, ListedBatch } from './batch-list.ts';
import { BATCHES_LIKE, relistAll, shortId, UNOPENED, type BatchRow } from './sql-batches.ts';
import type { SqlEngine } from './sql-engine.ts';
import type { Tables } from './sql-schema.ts';

/** What a list shows; the text that batches are found by stays in the store. */
const SHOWN = ['batch_id', 'make_id', 'make_name', 'name', 'lot_code', 'zero_at', 'state', 'finished_at', 'milk_l', 'cheese_kg'] as const; // prettier-ignore
type Rows = SelectQueryBuilder<Tables, 'batches', object>;
/** Ids in one statement; well under every engine's limit of parameters. */
const MOST_IDS = 1000;

/** The list of batches over SQL, from the table that `sql-batches.ts` keeps beside the log. */
export function sqlBatchList(input: { readonly db: Kysely<Tables>; readonly engine: SqlEngine }): BatchList {
  const { db, engine } = input;
  return {
    list: (query) =>
      engine.run(async () => {
        const rows = await found(db, query);
        const streams = await lastsOf(db, rows.map((row) => row.batch_id)); // prettier-ignore
        return rows.map((row) => listed(row, streams.get(row.batch_id)));
      }),

    newestOf: ({ count, among }) =>
      engine.run(async () => {
        if (among.length === 0) return new Set<string>();
        const oldest = await newestFirst(db).select(['zero_at', 'batch_id']).offset(count - 1).limit(1).executeTakeFirst(); // prettier-ignore
        const newest = new Set<string>();
        // After a whole dairy was brought in, all its batches have grown at once.
        for (let from = 0; from < among.length; from += MOST_IDS) {
          const rows = await db
            .selectFrom('batches')
            .select('batch_id')
            .where('batch_id', 'in', among.slice(from, from + MOST_IDS))
            .where((row) =>
              oldest === undefined
                ? row.lit(true)
                : row.eb(row.refTuple('zero_at', 'batch_id'), '>=', row.tuple(oldest.zero_at, oldest.batch_id)),
            )
            .execute();
          for (const row of rows) newest.add(row.batch_id);
        }
        return newest;
      }),

    newestStreams: ({ count }) =>
      engine.run(async () => {
        const small = await db
          .selectFrom('streams')
          .select(['stream_id', 'last'])
          .where('stream_id', 'not like', BATCHES_LIKE)
          .execute();
        const newest = await newestFirst(db).select('batch_id').limit(count).execute();
        const lasts = await lastsOf(db, newest.map((row) => row.batch_id)); // prettier-ignore
        return [
          ...small.map((row) => ({ streamId: row.stream_id, last: row.last })),
          ...newest.map(({ batch_id: streamId }) => ({ streamId, last: lasts.get(streamId)?.last ?? 0 })),
        ];
      }),

    relist: ({ onBatches } = {}) =>
      relistAll({
        inOne: (work) =>
          engine.run(() => db.transaction().setIsolationLevel('read committed').execute((changing) => work(changing))),
        ...(onBatches === undefined ? {} : { onBatches }),
      }), // prettier-ignore
  };
}

const newestFirst = (db: Kysely<Tables>): Rows => db.selectFrom('batches').orderBy('zero_at', 'desc').orderBy('batch_id', 'desc'); // prettier-ignore

async function found(db: Kysely<Tables>, query: BatchQuery): Promise<Omit<BatchRow, 'search'>[]> {
  const { search = '', makeId, before, limit } = query;
  let rows = newestFirst(db).where('state', '!=', UNOPENED);
  if (makeId !== undefined) rows = rows.where('make_id', '=', shortId(makeId));
  // One scan of short rows in the order that is wanted, ended when the page is full: the same on every engine.
  for (const word of searchWords(search)) rows = rows.where(sql<boolean>`search like ${`%${literally(word)}%`} escape '\\'`); // prettier-ignore
  if (before !== undefined) {
    const from = await db.selectFrom('batches').select('zero_at').where('batch_id', '=', before).executeTakeFirst();
    if (from === undefined) return [];
    rows = rows.where((row) => row.eb(row.refTuple('zero_at', 'batch_id'), '<', row.tuple(from.zero_at, before)));
  }
  return rows
    .select([...SHOWN])
    .limit(limit)
    .execute();
}

const literally = (word: string): string => word.replaceAll(/[\\%_]/g, String.raw`\$&`);

async function lastsOf(
  db: Kysely<Tables>,
  ids: readonly string[],
): Promise<ReadonlyMap<string, { readonly last: number; readonly changed_at: number }>> {
  if (ids.length === 0) return new Map();
  const rows = await db.selectFrom('streams').select(['stream_id', 'last', 'changed_at']).where('stream_id', 'in', ids).execute(); // prettier-ignore
  return new Map(rows.map((row) => [row.stream_id, row]));
}

const listed = (
  row: Omit<BatchRow, 'search'>,
  stream: { readonly last: number; readonly changed_at: number } | undefined,
): ListedBatch => ({
  batchId: row.batch_id,
  makeId: row.make_id,
  makeName: row.make_name,
  name: row.name,
  lotCode: row.lot_code,
  zeroAt: row.zero_at,
  // The others are left out by the query.
  state: row.state === UNOPENED ? 'ready' : row.state,
  finishedAt: row.finished_at,
  milkL: row.milk_l,
  cheeseKg: row.cheese_kg,
  last: stream?.last ?? 0,
  changedAt: stream?.changed_at ?? 0,
});
