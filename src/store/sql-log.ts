import type { Kysely, Transaction } from 'kysely';
import { eventSchema, type Event } from '../record/event.ts';
import { canonicalText, EventConflictError } from '../record/merge.ts';
import type { Appended, EventStore } from './port.ts';
import type { Tables } from './sql-schema.ts';

/** Ids asked for in one statement; well under every engine's limit of parameters. */
const IDS_PER_QUERY = 200;
const DEFAULT_LIMIT = 1000;

/** The event log over SQL. The statements are plain enough for every engine; dialect and settings are the driver's. */
export function sqlEventStore(db: Kysely<Tables>): EventStore {
  return {
    append: (events) =>
      events.length === 0
        ? Promise.resolve([])
        : db.transaction().execute((transaction) => appendAll(transaction, events)),

    async readStream({ streamId, after, limit = DEFAULT_LIMIT }) {
      const rows = await db
        .selectFrom('events')
        .select(['n', 'event'])
        .where('stream_id', '=', streamId)
        .where('n', '>', after)
        .orderBy('n')
        .limit(limit)
        .execute();
      return rows.map((row) => ({ n: row.n, event: readEvent(row.event) }));
    },

    async find(ids) {
      const texts = await knownTexts(db, ids);
      return [...texts.values()].map(readEvent);
    },

    async listStreams() {
      const rows = await db.selectFrom('streams').selectAll().orderBy('stream_id').execute();
      return rows.map((row) => ({ streamId: row.stream_id, last: row.last }));
    },

    async readAll({ after, limit = DEFAULT_LIMIT }) {
      const rows = await db
        .selectFrom('events')
        .select(['position', 'event'])
        .where('position', '>', after)
        .orderBy('position')
        .limit(limit)
        .execute();
      return rows.map((row) => ({ position: row.position, event: readEvent(row.event) }));
    },

    close: () => db.destroy(),
  };
}

async function appendAll(db: Transaction<Tables>, events: readonly Event[]): Promise<Appended[]> {
  // The first statement writes, so that a second process waits here and not in the middle.
  for (const streamId of [...new Set(events.map((event) => event.streamId))].sort()) {
    await db
      .insertInto('streams')
      .values({ stream_id: streamId, last: 0 })
      .onConflict((conflict) => conflict.doNothing())
      .execute();
  }
  const known = await knownTexts(
    db,
    events.map((event) => event.id),
  );
  const answers: Appended[] = [];
  for (const event of events) {
    const text = canonicalText(event);
    const before = known.get(event.id);
    if (before !== undefined && before !== text) throw new EventConflictError(event.id);
    answers.push({ id: event.id, state: before === undefined ? 'added' : 'known' });
    if (before !== undefined) continue;
    const { last } = await db
      .updateTable('streams')
      .set((row) => ({ last: row('last', '+', 1) }))
      .where('stream_id', '=', event.streamId)
      .returning('last')
      .executeTakeFirstOrThrow();
    await db.insertInto('events').values({ id: event.id, stream_id: event.streamId, n: last, event: text }).execute();
    known.set(event.id, text);
  }
  return answers;
}

async function knownTexts(db: Kysely<Tables>, asked: readonly string[]): Promise<Map<string, string>> {
  const ids = [...new Set(asked)];
  const known = new Map<string, string>();
  for (let from = 0; from < ids.length; from += IDS_PER_QUERY) {
    const rows = await db
      .selectFrom('events')
      .select(['id', 'event'])
      .where('id', 'in', ids.slice(from, from + IDS_PER_QUERY))
      .execute();
    for (const row of rows) known.set(row.id, row.event);
  }
  return known;
}

/** Bodies are left to the fold, which keeps what it cannot read; one of them must not hide the others. */
function readEvent(text: string): Event {
  return eventSchema.parse(JSON.parse(text));
}
