import { z } from 'zod';
import { eventSchema } from '../../record/event.ts';
import type { EventStore, PlacedEvent } from '../../store/port.ts';
import { parsed } from './parsed.ts';
import { readJson } from './read-json.ts';
import type { Route } from './route.ts';

/** Events of one answer. */
const PAGE = 500;
/** Events read at once; a page that has come to so many characters gets no further part. */
const PART = 64;
const LONG_PAGE_CHARS = 1_000_000;
/** Streams that one question may be about. */
const MOST_STREAMS = 200;

const streamIdSchema = eventSchema.shape.streamId;
/** Figures alone: what else can be read as a number (an empty text, 0x10) was not meant as a place. */
const querySchema = z.object({ after: z.string().regex(/^\d{1,15}$/, 'a place in the stream, 0 or more').transform(Number).default(0) }); // prettier-ignore
const placesSchema = z.strictObject({
  places: z.array(z.strictObject({ streamId: streamIdSchema, after: z.int().min(0).max(1e15) })).min(1).max(MOST_STREAMS),
}); // prettier-ignore
const page = { events: z.array(z.object({ n: z.int(), event: eventSchema })), last: z.int() };

/** Streams read on: one from a place, or many of which each has grown a little. */
export function pageRoutes(store: EventStore): Route[] {
  return [
    {
      method: 'get',
      path: '/api/streams/{streamId}/events',
      needs: 'reader',
      summary: `Events of one stream after a place, at most ${PAGE}; ask on from the last place until you have "last".`,
      query: querySchema,
      result: z.object(page),
      async answer(c) {
        const streamId = parsed(streamIdSchema, c.req.param('streamId'), 'streamId');
        const { after } = parsed(querySchema, c.req.query(), '');
        const { events, last } = await readOn(store, { streamId, after, room: { events: PAGE, chars: LONG_PAGE_CHARS } }); // prettier-ignore
        return c.json({ events, last });
      },
    },
    {
      method: 'post',
      path: '/api/pages',
      needs: 'reader',
      summary: `The same for up to ${MOST_STREAMS} streams in one answer. The first of them has a page; those that there was no room for have none: ask for them again.`,
      body: placesSchema,
      result: z.object({ pages: z.array(z.object({ streamId: streamIdSchema, ...page })) }),
      async answer(c) {
        const { places } = parsed(placesSchema, await readJson(c), '');
        const pages: object[] = [];
        const room = { events: PAGE, chars: LONG_PAGE_CHARS };
        for (const { streamId, after } of places) {
          if (room.events <= 0 || room.chars <= 0) break;
          const read = await readOn(store, { streamId, after, room });
          pages.push({ streamId, events: read.events, last: read.last });
          room.events -= read.events.length;
          room.chars -= read.chars;
        }
        return c.json({ pages });
      },
    },
  ];
}

interface Page {
  readonly events: readonly PlacedEvent[];
  readonly last: number;
  readonly chars: number;
}

/** Events after a place, read a part at a time: however long each of them is, a page stays of a size that a phone can take. */
async function readOn(
  store: EventStore,
  input: {
    readonly streamId: string;
    readonly after: number;
    readonly room: { readonly events: number; readonly chars: number };
  },
): Promise<Page> {
  const { streamId, after, room } = input;
  const events: PlacedEvent[] = [];
  let chars = 0;
  for (;;) {
    const limit = Math.min(PART, room.events - events.length);
    const part = await store.readStream({ streamId, after: events.at(-1)?.n ?? after, limit });
    events.push(...part);
    chars += JSON.stringify(part).length;
    // A part that is not full ends where the stream does.
    const end = part.length < limit ? events.at(-1)?.n : undefined;
    if (end !== undefined) return { events, last: end, chars };
    if (part.length < limit || events.length >= room.events || chars > room.chars)
      return { events, last: (await store.streamState(streamId)).last, chars };
  }
}
