import type { Kysely, Transaction } from 'kysely';
import type { Event } from '../record/event.ts';
import { canonicalText, EventConflictError } from '../record/merge.ts';
import type { Appended, EventStore } from './port.ts';
import type { SqlEngine } from './sql-engine.ts';
import { relistGrown } from './sql-batches.ts';
import { formatOf, type Tables } from './sql-schema.ts';
import { storedEvent } from './stored-event.ts';

/** Rows or ids in one statement; well under every engine's limit of parameters. */
const ROWS_PER_STATEMENT = 200;
const DEFAULT_LIMIT = 1000;
/**
 * A change may carry an earlier moment than others that are seen already: it is stamped first and committed a little
 * later, and the clocks of an engine's nodes differ by up to half a second. What is older than this was seen by then.
 */
const OVERLAP_MS = 30_000;

/** The event log over SQL. The statements are plain enough for every engine; dialect and settings are the driver's. */
export function sqlEventStore(input: { readonly db: Kysely<Tables>; readonly engine: SqlEngine }): EventStore {
  const { db, engine } = input;
  return {
    append: (events) =>
      events.length === 0
        ? Promise.resolve([])
        : engine.run(() =>
            db
              .transaction()
              // Places are taken under the lock of their stream's row and ids are unique: nothing here stands on a
              // snapshot, so a stricter level would only turn waiting into running again. Engines that know nothing
              // but serializable do that, and `run` meets them.
              .setIsolationLevel('read committed')
              .execute((transaction) => appendAll(transaction, { events, engine })),
          ),

    readStream: ({ streamId, after, limit = DEFAULT_LIMIT }) =>
      engine.run(async () => {
        const rows = await db
          .selectFrom('log')
          .select(['n', 'event'])
          .where('stream_id', '=', streamId)
          .where('n', '>', after)
          .orderBy('n')
          .limit(limit)
          .execute();
        return rows.map((row) => ({ n: row.n, event: storedEvent(row.event) }));
      }),

    find: (ids) => engine.run(async () => [...(await knownTexts(db, ids)).values()].map(storedEvent)),

    listStreams: () =>
      engine.run(async () => {
        const rows = await db.selectFrom('streams').select(['stream_id', 'last']).execute();
        // Sorted here: engines differ in how they order text.
        return rows.map(stateOf).sort((a, b) => (a.streamId < b.streamId ? -1 : 1));
      }),

    streamState: (streamId) =>
      engine.run(async () => {
        const row = await db.selectFrom('streams').select('last').where('stream_id', '=', streamId).executeTakeFirst();
        return { streamId, last: row?.last ?? 0 };
      }),

    readAll: ({ after, limit = DEFAULT_LIMIT }) =>
      engine.run(async () => {
        const all = db.selectFrom('log').select(['n', 'event']).orderBy('stream_id').orderBy('n').limit(limit);
        const rows =
          after === 0
            ? await all.execute()
            : await all
                .where((row) => row.eb(row.refTuple('stream_id', 'n'), '>', row.tuple(after.event.streamId, after.n)))
                .execute();
        return rows.map((row) => ({ n: row.n, event: storedEvent(row.event) }));
      }),

    readGrown: ({ since, most }) =>
      engine.run(async () => {
        // The moment first: what is committed between the two statements comes again with the next mark.
        const { now } = await db.selectNoFrom(engine.now().as('now')).executeTakeFirstOrThrow();
        // A clock that was set back must not hide what is written after it, nor one that was set forward what was before.
        const from = Math.min(since ?? now, now) - OVERLAP_MS;
        const grown = db.selectFrom('streams').select(['stream_id', 'last']).where('changed_at', '>=', from);
        const rows = await (most === undefined ? grown : grown.orderBy('changed_at', 'desc').limit(most)).execute();
        return { streams: rows.map(stateOf), mark: now };
      }),

    close: () => db.destroy(),
  };
}

const stateOf = (row: { readonly stream_id: string; readonly last: number }) => ({
  streamId: row.stream_id,
  last: row.last,
});

async function appendAll(
  db: Transaction<Tables>,
  input: { readonly events: readonly Event[]; readonly engine: SqlEngine },
): Promise<Appended[]> {
  const { events, engine } = input;
  // The first statement writes: a second process waits here and not in the middle. Rows are locked in sorted order,
  // so that two appends to the same streams never wait for each other.
  for (const ids of inParts([...new Set(events.map((event) => event.streamId))].sort())) {
    await db
      .insertInto('streams')
      .values(ids.map((id) => ({ stream_id: id, last: 0, changed_at: 0 })))
      .onConflict((conflict) => conflict.column('stream_id').doUpdateSet((row) => ({ last: row.ref('streams.last') })))
      .execute();
  }
  // A newer program may have changed the store since this one opened it, and keeps more beside the events than is known
  // here. Looked for under the lock: on one file such a change comes before this append or after it, never within.
  await formatOf(db);
  const known = await knownTexts(
    db,
    events.map((event) => event.id),
  );
  const answers: Appended[] = [];
  const fresh = new Map<string, { readonly event: Event; readonly text: string }[]>();
  const written = new Map<string, { readonly events: readonly Event[]; readonly isNew: boolean }>();
  for (const event of events) {
    const text = canonicalText(event);
    const before = known.get(event.id);
    if (before !== undefined && before !== text) throw new EventConflictError(event.id);
    answers.push({ id: event.id, state: before === undefined ? 'added' : 'known' });
    if (before !== undefined) continue;
    known.set(event.id, text);
    const added = fresh.get(event.streamId) ?? [];
    added.push({ event, text });
    fresh.set(event.streamId, added);
  }
  const lasts = await raised(db, { counts: new Map([...fresh].map(([id, added]) => [id, added.length])), engine });
  const rows = [...fresh].flatMap(([streamId, added]) => {
    const last = lasts.get(streamId);
    if (last === undefined) throw new Error(`The row of ${streamId} was locked and is gone.`);
    const first = last - added.length + 1;
    written.set(streamId, { events: added.map(({ event }) => event), isNew: first === 1 });
    return added.map(({ event: { id }, text }, index) => ({ id, stream_id: streamId, n: first + index, event: text }));
  });
  for (const part of inParts(rows)) await db.insertInto('log').values(part).execute();
  await relistGrown(db, written);
  return answers;
}

async function knownTexts(db: Kysely<Tables>, asked: readonly string[]): Promise<Map<string, string>> {
  const known = new Map<string, string>();
  for (const ids of inParts([...new Set(asked)])) {
    const rows = await db.selectFrom('log').select(['id', 'event']).where('id', 'in', ids).execute();
    for (const row of rows) known.set(row.id, row.event);
  }
  return known;
}

function inParts<T>(all: readonly T[]): T[][] {
  const parts: T[][] = [];
  for (let from = 0; from < all.length; from += ROWS_PER_STATEMENT)
    parts.push(all.slice(from, from + ROWS_PER_STATEMENT));
  return parts;
}

/** Raises the last place of each stream by how many events came to it, and gives the new ones. */
async function raised(
  db: Transaction<Tables>,
  input: { readonly counts: ReadonlyMap<string, number>; readonly engine: SqlEngine },
): Promise<Map<string, number>> {
  const { counts, engine } = input;
  const lasts = new Map<string, number>();
  // One statement for all streams that gain the same number: their rows are locked already, in order.
  for (const count of new Set(counts.values())) {
    for (const ids of inParts([...counts].filter(([, one]) => one === count).map(([id]) => id))) {
      const rows = await db
        .updateTable('streams')
        // Stamped under the lock, so that no waiting lies between the moment and the commit.
        .set((row) => ({ last: row('last', '+', count), changed_at: engine.now() }))
        .where('stream_id', 'in', ids)
        .returning(['stream_id', 'last'])
        .execute();
      for (const row of rows) lasts.set(row.stream_id, row.last);
    }
  }
  return lasts;
}
