import { z } from 'zod';
import { localDay, wallInstant } from '../plan/wall-clock.ts';

/** What is wished of a day: makes, kit, hours. Kept on this device. */

export const MOST_POTS = 8;
const count = (most: number, usual: number): z.ZodCatch<z.ZodInt> => z.int().min(0).max(most).catch(usual);

const rowSchema = z.object({
  id: z.string(),
  makeId: z.string(),
  /** As typed, in the reader's unit. */
  milk: z.string(),
  pots: z.int().min(1).max(MOST_POTS).catch(1),
  /** Curd made from this minute of the day on, kept cold and worked within the hours; left out for a make in one go. */
  madeFromMin: z.int().optional(),
});
export type DayRow = z.infer<typeof rowSchema>;

const stateSchema = z.object({
  rows: z.array(rowSchema).max(MOST_POTS),
  kit: z.object({
    hands: count(8, 1),
    burner: count(8, 2),
    kettle: count(4, 1),
    /** Null while nobody has said: as many as are wanted. */
    bowl: z.int().min(1).max(12).nullable().catch(null),
    press: z.int().min(0).max(8).nullable().catch(null),
    'brine-tub': z.int().min(1).max(8).nullable().catch(null),
  }),
  mode: z.enum(['from', 'to', 'between']).catch('from'),
  day: z.string(),
  from: z.string(),
  to: z.string(),
  /** Pupils who lend a hand between the hours; 0 where it is no class. */
  pupils: count(24, 0),
  /** Pots may begin so long before the hours. */
  earlierMin: z.int().min(0).max(600).catch(0),
});
export type DayState = z.infer<typeof stateSchema>;

const KEY = 'vatside.day';

export function firstDayState(input: {
  readonly makeId: string;
  readonly milk: string;
  readonly now: number;
}): DayState {
  const { makeId, milk, now } = input;
  return {
    rows: [{ id: 'row-1', makeId, milk, pots: 2 }],
    kit: { hands: 2, burner: 2, kettle: 1, bowl: null, press: null, 'brine-tub': null },
    mode: 'from', day: localDay(now + DAY_MS), from: '09:00', to: '17:00', pupils: 0, earlierMin: 0,
  }; // prettier-ignore
}

const DAY_MS = 86_400_000;
const MINUTE_MS = 60_000;

/** What was kept; null where there is nothing, or nothing that can be read. A day that is over becomes today. */
export function keptDayState(now: number): DayState | null {
  const text = localStorage.getItem(KEY);
  if (text === null) return null;
  try {
    const state = stateSchema.parse(JSON.parse(text));
    return state.day < localDay(now) ? { ...state, day: localDay(now) } : state;
  } catch {
    return null;
  }
}

export const keepDayState = (state: DayState): void => localStorage.setItem(KEY, JSON.stringify(state));

/** The day's clock: its midnight, and the hours in minutes since; null while a time is half typed. */
export function hoursOf(
  state: DayState,
): { readonly zeroAt: number; readonly fromMin: number; readonly toMin: number } | null {
  const zeroAt = wallInstant({ day: state.day, time: '00:00' });
  const from = wallInstant({ day: state.day, time: state.from });
  const to = wallInstant({ day: state.day, time: state.to });
  if (zeroAt === null || from === null || to === null) return null;
  return { zeroAt, fromMin: (from - zeroAt) / MINUTE_MS, toMin: (to - zeroAt) / MINUTE_MS };
}
