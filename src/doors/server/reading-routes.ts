import { createHash } from 'node:crypto';
import type { Context } from 'hono';
import { HTTPException } from 'hono/http-exception';
import { z } from 'zod';
import { InputError, type Problem } from '../../numbers/validity.ts';
import { readingSchema } from '../../make/history.ts';
import { eventSchema, type Event } from '../../record/event.ts';
import { EventConflictError } from '../../record/merge.ts';
import { problemsOf } from '../../record/parse-event.ts';
import type { EventStore } from '../../store/port.ts';
import { KnownBatches } from './known-batches.ts';
import type { LiveStreams } from './live-streams.ts';
import { postedReadingSchema, readPosted, type Posted } from './posted-reading.ts';
import { readJson } from './read-json.ts';
import type { Route } from './route.ts';
import type { ServerDevice } from './server-device.ts';

/** Readings taken in one request: a logger that was offline for an hour, not a whole archive. */
const LARGEST_POST = 200;
/** A reading takes at most some 300 characters; what is longer is something else. */
const LARGEST_POST_CHARS = 128 * 1024;

const answerSchema = z.object({
  id: z.string().optional(),
  eventId: z.string(),
  state: z.enum(['added', 'known']),
  reading: readingSchema,
  at: z.iso.datetime(),
  /** Set where the value was kept but is unusual. */
  doubt: z.string().optional(),
});
type Answer = z.infer<typeof answerSchema>;
type Good = Extract<Posted, { readonly reading: unknown }>;

/** Readings from scripts and probes: one request notes them, and open pages of the batch hear of it at once. */
export function readingRoutes(input: {
  readonly store: EventStore;
  readonly live: LiveStreams;
  readonly device: ServerDevice;
  readonly now: () => number;
}): Route[] {
  const { store, live, device, now } = input;
  const batches = new KnownBatches(store);
  // One after the other, so that the same reading sent twice at once is still noted once.
  let queue: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const turn = queue.then(work, work);
    queue = turn.catch(() => undefined);
    return turn;
  };
  return [
    {
      method: 'post',
      path: '/api/batches/{batchId}/readings',
      needs: 'helper',
      summary: `Notes a reading, or a list of up to ${LARGEST_POST}, in a running batch: all of them or none. With an "id" of your own, sending one again is harmless.`,
      body: z.union([postedReadingSchema, z.array(postedReadingSchema).min(1).max(LARGEST_POST)]),
      result: z.object({ answers: z.array(answerSchema) }),
      async answer(c) {
        const streamId = streamIdOf(c);
        const items = await itemsOf(c);
        const note = () => noted({ store, batches, live, device, streamId, items, nowAt: now() });
        // Another server on the same store noted it in between: it is known by now.
        const answers = await inTurn(() => note().catch((error: unknown) => (error instanceof EventConflictError ? note() : Promise.reject(error)))); // prettier-ignore
        return c.json({ answers });
      },
    },
  ];
}

function streamIdOf(c: Context): string {
  const given = c.req.param('batchId') ?? '';
  const parsed = eventSchema.shape.streamId.safeParse(given.startsWith('batch:') ? given : `batch:${given}`, {
    reportInput: true,
  });
  if (!parsed.success) throw new InputError(problemsOf(parsed.error, 'batchId'));
  return parsed.data;
}

interface Item {
  readonly json: unknown;
  readonly root: string;
}

async function itemsOf(c: Context): Promise<readonly Item[]> {
  const body = await readJson(c);
  if (JSON.stringify(body).length > LARGEST_POST_CHARS) {
    throw new HTTPException(413, { message: `Send at most ${LARGEST_POST_CHARS} characters of readings at once` });
  }
  if (!Array.isArray(body)) return [{ json: body, root: '' }];
  if (body.length === 0 || body.length > LARGEST_POST) {
    throw new InputError([{ code: 'impossible', field: 'body', value: body.length, expected: `1 to ${LARGEST_POST} readings`, remedy: 'Send them in several requests.' }]); // prettier-ignore
  }
  return body.map((json: unknown, index) => ({ json, root: `[${index}]` }));
}

async function noted(input: {
  readonly store: EventStore;
  readonly batches: KnownBatches;
  readonly live: LiveStreams;
  readonly device: ServerDevice;
  readonly streamId: string;
  readonly items: readonly Item[];
  readonly nowAt: number;
}): Promise<readonly Answer[]> {
  const { store, batches, live, device, streamId, items, nowAt } = input;
  const { record, fresh } = await batches.look(streamId);
  // Before anything is refused: it is not fresh a second time.
  device.see(fresh, nowAt);
  if (!record.isOpened) {
    throw new HTTPException(404, { message: `No batch ${streamId} is on this server; its address is on the page "Readings from instruments"` }); // prettier-ignore
  }
  const posted = items.map(({ json, root }) => readPosted({ json, root, record, nowAt }));
  const problems = posted.flatMap((one) => ('problems' in one ? one.problems : []));
  if (problems.length > 0) throw new InputError(problems);

  const named = posted.flatMap((one) =>
    'problems' in one || one.id === undefined ? [] : [eventIdOf(streamId, one.id)],
  );
  const byId = new Map((await store.find(named)).map((event) => [event.id, event]));
  const added: Event[] = [];
  const answers = posted.flatMap((one, index): Answer[] => {
    if ('problems' in one) return [];
    const eventId = one.id === undefined ? undefined : eventIdOf(streamId, one.id);
    const known = eventId === undefined ? undefined : byId.get(eventId);
    if (known !== undefined) {
      const before = readingSchema.safeParse(known.body);
      const isSame = before.success && isSameReading({ known, before: before.data, one });
      if (isSame) return [answerOf({ event: known, reading: before.data, one, state: 'known' })];
      problems.push(contradiction({ one, root: items[index]?.root ?? '' }));
      return [];
    }
    const event = device.make({ kind: 'reading', body: one.reading, streamId, happenedAt: one.at, loggedAt: nowAt, ...(eventId === undefined ? {} : { id: eventId }) }); // prettier-ignore
    byId.set(event.id, event);
    added.push(event);
    return [answerOf({ event, reading: one.reading, one, state: 'added' })];
  });
  if (problems.length > 0) throw new InputError(problems);
  if (added.length > 0) {
    await store.append(added);
    live.tell([await store.streamState(streamId)]);
  }
  return answers;
}

/** One event id for one name of one batch, whoever sends it and however often the server was started. */
const eventIdOf = (streamId: string, id: string): string =>
  `post.${createHash('sha256').update(`${streamId}\n${id}`).digest('hex').slice(0, 40)}`;

function answerOf(input: {
  readonly event: Event;
  readonly reading: Answer['reading'];
  readonly one: Good;
  readonly state: Answer['state'];
}): Answer {
  const { event, reading, one, state } = input;
  return {
    ...(one.id === undefined ? {} : { id: one.id }),
    eventId: event.id,
    state,
    reading,
    at: new Date(event.happenedAt).toISOString(),
    ...(one.doubt === null ? {} : { doubt: one.doubt }),
  };
}

/** Sent again as it was; a time that was left out is the time of the first sending. */
function isSameReading(input: {
  readonly known: Event;
  readonly before: Answer['reading'];
  readonly one: Good;
}): boolean {
  const { known, before, one } = input;
  const isSameTime = !one.hasOwnTime || known.happenedAt === Math.round(one.at);
  return before.quantity === one.reading.quantity && before.value === one.reading.value && isSameTime;
}

/** A name that stands for something else already; the first one is never changed. */
function contradiction({ one, root }: { readonly one: Good; readonly root: string }): Problem {
  const field = root === '' ? 'id' : `${root}.id`;
  return { code: 'contradiction', field, value: one.id, expected: 'a name that stands for no other reading of this batch', remedy: 'Give each reading a name of its own; set a wrong one right in the record.' }; // prettier-ignore
}
