import { z } from 'zod';
import { careFeed } from '../../exchange/ageing/care-feed.ts';
import { LANGUAGES, type Language, type Say } from '../../exchange/words.ts';
import { dayOf } from '../../record/day-number.ts';
import type { Event } from '../../record/event.ts';
import { keptThings } from '../../record/kept-things.ts';
import type { ListedStore } from '../../store/batch-list.ts';
import type { EventStore, StreamState } from '../../store/port.ts';
import { parsed } from './parsed.ts';
import type { Route } from './route.ts';
import { sayIn } from './sums.ts';
import { restOfStream } from './rest-of-stream.ts';

const KEPT = /^(piece|place|day):/;
/** A feed is made anew after this, though nothing was noted: what is due goes by the clock. Many who ask at once cost one. */
const KEPT_MS = 10_000;
const querySchema = z.object({ language: z.enum(LANGUAGES).default('en-GB') });

/** The jobs of the ageing room as a calendar to subscribe to, from this device alone, as all that the server answers. */
export function careRoutes(input: {
  readonly store: ListedStore;
  readonly wordsDir: string;
  readonly now: () => number;
}): Route[] {
  const { store, wordsDir, now } = input;
  const made = new Map<Language, { readonly events: number; readonly at: number; readonly text: Promise<string> }>();
  const spoken = new Map<Language, Say>();
  const sayIt = (language: Language): Say => {
    const say = spoken.get(language) ?? sayIn(wordsDir, language);
    spoken.set(language, say);
    return say;
  };
  const feedIn = async (language: Language): Promise<string> => {
    const at = now();
    const streams = await keptStreams(store);
    // Nothing is ever taken out of a stream, so whatever is noted raises their sum.
    const events = streams.reduce((sum, { last }) => sum + last, 0);
    const before = made.get(language);
    if (before?.events === events && Math.abs(at - before.at) < KEPT_MS) return before.text;
    const text = wholeStreams(store, streams).then((kept) => careFeed({ kept: keptThings(kept), dayAt: localDay, now: at, say: sayIt(language) })); // prettier-ignore
    made.set(language, { events, at, text });
    // One that could not be made is tried anew by whoever asks next.
    return text.catch((error: unknown) => {
      made.delete(language);
      throw error;
    });
  };
  return [
    {
      method: 'get',
      path: '/api/ageing.ics',
      needs: 'reader',
      summary: 'The jobs of the ageing room, one entry a day, as a calendar (iCalendar) to subscribe to.',
      query: querySchema,
      mediaType: 'text/calendar',
      async answer(c) {
        const { language } = parsed(querySchema, c.req.query(), '');
        const text = await feedIn(language);
        return c.body(text, 200, { 'content-type': 'text/calendar; charset=utf-8' });
      },
    },
  ];
}

/** The machine's own day: the server and the phone's calendar stand in one house. */
const localDay = (at: number): number => dayOf({ at, utcOffsetMin: -new Date(at).getTimezoneOffset() });

/** The streams of the ageing room, without those of batches being read. */
async function keptStreams(store: ListedStore): Promise<StreamState[]> {
  return (await store.batches.newestStreams({ count: 1 })).filter(({ streamId }) => KEPT.test(streamId));
}

async function wholeStreams(
  store: EventStore,
  streams: readonly StreamState[],
): Promise<ReadonlyMap<string, readonly Event[]>> {
  return new Map(await Promise.all(streams.map(async ({ streamId }) => [streamId, (await restOfStream(store, { streamId, after: 0 })).map(({ event }) => event)] as const))); // prettier-ignore
}
