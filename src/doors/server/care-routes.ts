import { z } from 'zod';
import { careFeed } from '../../exchange/ageing/care-feed.ts';
import { LANGUAGES, type Language, type Say } from '../../exchange/words.ts';
import { dayOf } from '../../record/day-number.ts';
import type { Event } from '../../record/event.ts';
import { keptThings } from '../../record/kept-things.ts';
import type { EventStore } from '../../store/port.ts';
import { parsed } from './parsed.ts';
import type { Route } from './route.ts';
import { sayIn } from './sums.ts';
import { wholeStream } from './whole-stream.ts';

const KEPT = /^(piece|place|day):/;
const querySchema = z.object({ language: z.enum(LANGUAGES).default('en-GB') });

/** The jobs of the ageing room as a calendar to subscribe to, from this device alone, as all that the server answers. */
export function careRoutes(input: {
  readonly store: EventStore;
  readonly wordsDir: string;
  readonly now: () => number;
}): Route[] {
  const { store, wordsDir, now } = input;
  const spoken = new Map<Language, Say>();
  const sayIt = (language: Language): Say => {
    const say = spoken.get(language) ?? sayIn(wordsDir, language);
    spoken.set(language, say);
    return say;
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
        const kept = keptThings(await keptStreams(store));
        const text = careFeed({ kept, dayAt: localDay, now: now(), say: sayIt(language) });
        return c.body(text, 200, { 'content-type': 'text/calendar; charset=utf-8' });
      },
    },
  ];
}

/** The machine's own day: the server and the phone's calendar stand in one house. */
const localDay = (at: number): number => dayOf({ at, utcOffsetMin: -new Date(at).getTimezoneOffset() });

async function keptStreams(store: EventStore): Promise<ReadonlyMap<string, readonly Event[]>> {
  const streams = (await store.listStreams()).filter(({ streamId }) => KEPT.test(streamId));
  return new Map(await Promise.all(streams.map(async ({ streamId }) => [streamId, await wholeStream(store, streamId)] as const))); // prettier-ignore
}
