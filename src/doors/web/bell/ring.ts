import type { Book, Held, Shown, Sounding } from './book.ts';
import { MINUTE_MS } from './call-parts.ts';
import type { Call } from './call.ts';

/** One sound to be made now. */
export interface Sound {
  readonly class: 'act' | 'due';
  readonly calls: readonly Call[];
  /** Unanswered for long: louder. */
  readonly isLoud: boolean;
  readonly isSpoken: boolean;
  /** False where it only repeats. */
  readonly isFirst: boolean;
}

/** An unanswered Act sounds again after so long, and sooner after a minute of it (`ux` of alarms: our own choice). */
const REPEAT_MS = 8_000;
const REPEAT_SOON_MS = 4_000;
const SOON_AFTER_MS = MINUTE_MS;
/** Louder, and spoken again and again, from then on. */
const LOUD_AFTER_MS = 2 * MINUTE_MS;
const SPEAK_EVERY_MS = 20_000;
/** The same class does not sound again for the same cause within three minutes (EEMUA 191 practice at second hand; our own figure). */
const DEADBAND_MS = 3 * MINUTE_MS;
/**
 * Of three soundings in ten minutes one is left to an Act (EEMUA 191: one in ten minutes on average; at second hand). A timer that
 * the maker set neither waits for this nor counts: it was asked for.
 */
const WINDOW_MS = 10 * MINUTE_MS;
const MOST_DUE_IN_WINDOW = 2;

/**
 * What sounds now, and the book after it. Pure: times come in. One voice at a time: while an Act is unanswered nothing
 * else sounds, and due calls that come together sound as one.
 */
export function ring(input: { readonly book: Book; readonly shown: readonly Shown[]; readonly nowAt: number }): {
  readonly book: Book;
  readonly sound: Sound | null;
} {
  const { nowAt, shown } = input;
  const book = { ...input.book, soundings: input.book.soundings.filter((one) => nowAt - one.at < WINDOW_MS) };
  const of = (wanted: Call['class']): Held[] =>
    shown.filter(({ call }) => call.class === wanted).flatMap(({ call }) => book.held[call.id] ?? []);
  const acts = of('act');
  const act = acts.find((held) => held.soundedAt === null && !isTooSoon(held, book.soundings, nowAt)) ?? acts.find((held) => held.soundedAt !== null); // prettier-ignore
  if (act !== undefined) return ringAct(act, book, nowAt) ?? { book: input.book, sound: null };
  if (acts.length > 0) return { book: input.book, sound: null };
  const isFull = book.soundings.filter((one) => one.isAsked !== true).length >= MOST_DUE_IN_WINDOW;
  const mayRing = ({ call }: Held): boolean => !isFull || call.isAsked === true;
  const dues = of('due').filter((held) => held.soundedAt === null && mayRing(held) && !isTooSoon(held, book.soundings, nowAt)); // prettier-ignore
  if (dues.length === 0) return { book: input.book, sound: null };
  const calls = dues.map(({ call }) => call);
  return { book: sounded(book, dues, nowAt, true), sound: { class: 'due', calls, isLoud: false, isSpoken: true, isFirst: true } }; // prettier-ignore
}

function ringAct(act: Held, book: Book, nowAt: number): ReturnType<typeof ring> | null {
  const { soundedAt, lastAt, spokenAt, call } = act;
  const age = soundedAt === null ? 0 : nowAt - soundedAt;
  const pause = age < SOON_AFTER_MS ? REPEAT_MS : REPEAT_SOON_MS;
  if (lastAt !== null && nowAt - lastAt < pause) return null;
  const isFirst = soundedAt === null;
  const isLoud = age >= LOUD_AFTER_MS;
  const isSpoken = isFirst || (isLoud && (spokenAt === null || nowAt - spokenAt >= SPEAK_EVERY_MS));
  return { book: sounded(book, [act], nowAt, isSpoken), sound: { class: 'act', calls: [call], isLoud, isSpoken, isFirst } }; // prettier-ignore
}

const isTooSoon = ({ call }: Held, soundings: readonly Sounding[], nowAt: number): boolean =>
  soundings.some((one) => one.class === call.class && one.causes.includes(call.cause) && nowAt - one.at < DEADBAND_MS);

function sounded(book: Book, now: readonly Held[], nowAt: number, isSpoken: boolean): Book {
  const held = { ...book.held };
  for (const one of now) {
    held[one.call.id] = { ...one, soundedAt: one.soundedAt ?? nowAt, lastAt: nowAt, spokenAt: isSpoken ? nowAt : one.spokenAt }; // prettier-ignore
  }
  const first = now.filter((one) => one.soundedAt === null);
  const [{ call } = { call: undefined }] = first;
  if (call === undefined) return { ...book, held };
  const isAsked = first.every((one) => one.call.isAsked === true);
  const sounding = { at: nowAt, class: call.class, causes: first.map((one) => one.call.cause), ...(isAsked ? { isAsked } : {}) }; // prettier-ignore
  return { ...book, held, soundings: [...book.soundings, sounding] };
}
