import type { Context } from 'hono';
import { streamSSE } from 'hono/streaming';
import { z } from 'zod';
import { InputError, problemText } from '../../numbers/validity.ts';
import { eventSchema, isDemoStream, LARGEST_EVENT_CHARS, type Event } from '../../record/event.ts';
import { isMadeUp } from '../../record/clock.ts';
import { ALL_KINDS } from '../../record/keeping-events.ts';
import { EventConflictError, isSameEvent } from '../../record/merge.ts';
import { parseEvent } from '../../record/parse-event.ts';
import type { ServedStore } from '../../store/kept-store.ts';
import type { Appended, EventStore } from '../../store/port.ts';
import { followedAnswer, followedQuery, followedStreams } from './followed-streams.ts';
import type { LiveStreams } from './live-streams.ts';
import type { LiveLines } from './share/live-lines.ts';
import { judgeFor } from './share/may-send.ts';
import { notingOf, type Who } from './share/who.ts';
import { pageRoutes } from './page-routes.ts';
import { parsed } from './parsed.ts';
import { readJson } from './read-json.ts';
import type { Route } from './route.ts';

const LARGEST_PUSH = 200;
const HEARTBEAT_MS = 25_000;
/** On a line of everything, what grows within so long is told together: whoever hears of it reads all of it in one question. */
const TOGETHER_MS = 250;
const DEMO = 'The worked example stays on the device that opened it.';

const pushSchema = z.strictObject({ events: z.array(z.unknown()).max(LARGEST_PUSH) });
const streamIdSchema = eventSchema.shape.streamId;
/** Streams that one line may be asked for by name; a longer list is one of everything. */
const MOST_HEARD = 200;
const liveQuery = z.object({
  streams: z
    .string()
    .transform((text) => text.split(',').filter((id) => id !== ''))
    .pipe(z.array(streamIdSchema).max(MOST_HEARD))
    .optional(),
});
const answerSchema = z.object({ id: z.string(), state: z.enum(['added', 'known', 'refused']), reason: z.string().optional() }); // prettier-ignore
type Answer = z.infer<typeof answerSchema>;

/** The log over HTTP: what there is, one stream on from a place, a push, and a line that tells what has grown. */
export function eventRoutes(input: {
  readonly store: ServedStore;
  readonly live: LiveStreams;
  readonly lines: LiveLines;
  /** Whether a device is still paired. */
  readonly isPaired: (deviceId: string) => Promise<boolean>;
  readonly now: () => number;
  /** Milliseconds between two signs of life on a live line, when it is also looked whether the device is still paired. */
  readonly heartbeatMs?: number | undefined;
}): Route[] {
  const { store, live, now } = input;
  return [
    {
      method: 'get',
      path: '/api/streams',
      needs: 'reader',
      summary:
        'Streams with the place of their last events, the server’s clock (milliseconds UTC), a mark, and which store it is: another one has other events at the same places. "newest": every stream that is no batch, and so many of the newest batches; "since": what has grown since a mark (a batch that is not among the newest "isOld"); both: all of these; neither: as "newest" with 1,000.',
      query: followedQuery,
      result: followedAnswer,
      async answer(c) {
        const query = parsed(followedQuery, c.req.query(), '');
        return c.json({ ...(await followedStreams({ store, query })), now: now(), storeId: await store.identity() });
      },
    },
    ...pageRoutes(store),
    {
      method: 'post',
      path: '/api/events',
      // A reader gets its answers too: each event refused, with the reason.
      needs: 'reader',
      summary: `Takes up to ${LARGEST_PUSH} events and answers for each; sending one again is harmless.`,
      body: z.object({ events: z.array(eventSchema).max(LARGEST_PUSH) }),
      result: z.object({ answers: z.array(answerSchema) }),
      async answer(c) {
        const { events } = parsed(pushSchema, await readJson(c), '');
        const { answers, grown } = await takeIn({ store, jsons: events, who: c.get('who'), nowMs: now() });
        if (grown.size > 0) live.tell(await Promise.all([...grown].map((streamId) => store.streamState(streamId))));
        return c.json({ answers });
      },
    },
    {
      method: 'get',
      path: '/api/live',
      needs: 'reader',
      summary:
        'Server-sent events named "stream": a stream that has grown and its last place. The pull does the work. "streams": ids with commas between them; of these alone.',
      query: liveQuery,
      mediaType: 'text/event-stream',
      answer: (c) => liveLine({ ...input, c }),
    },
  ];
}

interface Taken {
  readonly answers: readonly Answer[];
  /** Streams that have new events. */
  readonly grown: ReadonlySet<string>;
}

/** Takes what can be taken; an event that is unreadable or contradicts a known one is refused alone. */
async function takeIn(input: {
  readonly store: EventStore;
  readonly jsons: readonly unknown[];
  readonly who: Who;
  readonly nowMs: number;
}): Promise<Taken> {
  const { store, jsons, who, nowMs } = input;
  const readable = jsons.map((json) => readOne(json));
  const events = readable.flatMap((item) => ('event' in item ? [item.event] : []));
  const judge = await judgeFor({ by: notingOf(who), store, events });
  const reasons = new Map(events.flatMap((event) => [[event, judge(event) ?? tooFarAhead(event, nowMs)] as const]));
  const unwanted = events.filter((event) => reasons.get(event) !== null);
  // What is there already is there, whoever sends it: a device that starts over hands in all it holds.
  const kept = new Map((await store.find(unwanted.map(({ id }) => id))).map((event) => [event.id, event]));
  const read = readable.map((item): Answer | { readonly event: Event } => {
    const reason = 'event' in item ? (reasons.get(item.event) ?? null) : null;
    if (!('event' in item) || reason === null) return item;
    const before = kept.get(item.event.id);
    const isThere = before !== undefined && isSameEvent(before, item.event);
    return { id: item.event.id, ...(isThere ? { state: 'known' } : { state: 'refused', reason }) };
  });
  const { states, refused } = await appendAgreeing(
    store,
    read.flatMap((item) => ('event' in item ? [item.event] : [])),
  );
  const grown = new Set<string>();
  const answers = read.map((item): Answer => {
    if (!('event' in item)) return item;
    const { id, streamId } = item.event;
    if (refused.has(item.event)) return { id, state: 'refused', reason: new EventConflictError(id).message };
    const state = states.get(item.event) ?? 'known';
    if (state === 'added') grown.add(streamId);
    return { id, state };
  });
  return { answers, grown };
}

const tooFarAhead = ({ clock }: Event, nowMs: number): string | null =>
  isMadeUp({ clock, nowMs }) ? `The clock ${clock} is more than a hundred years ahead; set the device's date right and note it again` : null; // prettier-ignore

/** Appends in one step all events that contradict nothing. */
async function appendAgreeing(
  store: EventStore,
  given: readonly Event[],
): Promise<{ states: ReadonlyMap<Event, Appended['state']>; refused: ReadonlySet<Event> }> {
  const refused = new Set<Event>();
  for (;;) {
    const events = given.filter((event) => !refused.has(event));
    try {
      const appended = await store.append(events);
      return { states: new Map(events.map((event, index) => [event, appended[index]?.state ?? 'known'])), refused };
    } catch (error) {
      if (!(error instanceof EventConflictError)) throw error;
      // All that contradict at once: two hundred rounds for two hundred of them would keep everybody waiting.
      const wrong = await contradicting(store, events);
      if (wrong.length === 0) throw error;
      for (const event of wrong) refused.add(event);
    }
  }
}

/** Those that say something else than the store does under the same id, or than one before them; of two, the later. */
async function contradicting(store: EventStore, events: readonly Event[]): Promise<readonly Event[]> {
  const known = new Map((await store.find(events.map(({ id }) => id))).map((event) => [event.id, event]));
  return events.filter((event) => {
    const before = known.get(event.id);
    if (before === undefined) known.set(event.id, event);
    return before !== undefined && !isSameEvent(before, event);
  });
}

function readOne(json: unknown): Answer | { readonly event: Event } {
  const id = typeof json === 'object' && json !== null && 'id' in json && typeof json.id === 'string' ? json.id.slice(0, 64) : ''; // prettier-ignore
  if (JSON.stringify(json).length > LARGEST_EVENT_CHARS) {
    return { id, state: 'refused', reason: `An event may have ${LARGEST_EVENT_CHARS} characters.` };
  }
  try {
    const event = parseEvent(json, ALL_KINDS);
    // Copies and backups leave it out: what is taken here must be in them.
    return isDemoStream(event.streamId) ? { id, state: 'refused', reason: DEMO } : { event };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { id, state: 'refused', reason: error.problems.slice(0, 5).map(problemText).join('\n') };
  }
}

function liveLine(input: {
  readonly c: Context;
  readonly live: LiveStreams;
  readonly lines: LiveLines;
  readonly isPaired: (deviceId: string) => Promise<boolean>;
  readonly heartbeatMs?: number | undefined;
}): Response {
  const { c, live, lines, isPaired, heartbeatMs = HEARTBEAT_MS } = input;
  const who = c.get('who');
  // Nobody would ever take from the line, nor hang it up.
  if (c.req.method === 'HEAD') return c.body(null, 200, { 'content-type': 'text/event-stream' });
  const { streams } = parsed(liveQuery, c.req.query(), '');
  return streamSSE(c, async (line) => {
    // However long nobody takes from the line, it holds back the last place of each stream and no more.
    const untold = new Map<string, number>();
    let isTelling = false;
    const tellAll = async (): Promise<void> => {
      isTelling = true;
      while (untold.size > 0 && !line.aborted && !line.closed) {
        for (const [streamId, last] of untold) {
          untold.delete(streamId);
          await line.writeSSE({ event: 'stream', data: JSON.stringify({ streamId, last }) });
        }
        if (streams === undefined) await line.sleep(TOGETHER_MS);
      }
      isTelling = false;
    };
    const hangUp = live.hear(({ streamId, last }) => {
      untold.set(streamId, last);
      if (!isTelling) void tellAll();
    }, streams);
    const end = (): void => {
      hangUp();
      void line.close();
    };
    const forget = who.kind === 'device' ? lines.opened(who.device.id, end) : () => undefined;
    line.onAbort(() => {
      hangUp();
      forget();
    });
    while (!line.aborted && !line.closed) {
      // Access may have been taken away at another server of the same store.
      if (who.kind === 'device' && !(await isPaired(who.device.id))) {
        forget();
        return end();
      }
      // A comment now and then, so that nothing on the way takes the line for dead.
      await line.write(': here\n\n');
      await line.sleep(heartbeatMs);
    }
    forget();
  });
}
