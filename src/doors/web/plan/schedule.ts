import type { Forecast } from '../../../forecast/forecast.ts';

const MINUTE_MS = 60_000;
/** Start times are given to five minutes: nobody lights a burner at 8:53. */
const ROUND_MIN = 5;

/** When the maker wants to be done, or to start, on the local wall clock. */
export interface ClockWish {
  readonly mode: 'done-by' | 'start-at';
  /** Milliseconds UTC. */
  readonly at: number;
}

export interface Schedule {
  /** What the clock shows at minute zero, milliseconds UTC. */
  readonly zeroAt: number;
  /** The likeliest end and the one that 19 in 20 makes keep. */
  readonly endAt: number;
  readonly endLateAt: number;
  /** Done-by only: the start would lie in the past. `earliestEndAt` is what starting now would bring. */
  readonly tooLate: { readonly earliestEndAt: number } | null;
}

/**
 * Hangs a plan on the clock. `done-by` works back from the end that 19 makes in 20 keep; `start-at` goes forwards.
 * @param input.forecast minutes since zero; its last step's end decides
 * @param input.now milliseconds UTC
 * @returns null when the forecast does not see an end (some members never get there)
 */
export function scheduleOf(input: {
  readonly forecast: Forecast;
  readonly wish: ClockWish;
  readonly now: number;
}): Schedule | null {
  const end = input.forecast.steps.at(-1)?.endMin;
  if (end === undefined || !Number.isFinite(end.p95) || !Number.isFinite(end.p50)) return null;
  const round = ROUND_MIN * MINUTE_MS;
  const zeroAt =
    input.wish.mode === 'start-at' ? input.wish.at : Math.floor((input.wish.at - end.p95 * MINUTE_MS) / round) * round;
  const soonest = Math.ceil(input.now / round) * round;
  return {
    zeroAt,
    endAt: zeroAt + end.p50 * MINUTE_MS,
    endLateAt: zeroAt + end.p95 * MINUTE_MS,
    tooLate:
      input.wish.mode === 'done-by' && zeroAt < input.now ? { earliestEndAt: soonest + end.p95 * MINUTE_MS } : null,
  };
}

/** Milliseconds UTC of a local day (`2026-03-04`) and time (`17:00`); null while either is half typed. */
export function wallInstant(input: { readonly day: string; readonly time: string }): number | null {
  const day = /^(\d{4})-(\d{2})-(\d{2})$/.exec(input.day);
  const time = /^(\d{1,2}):(\d{2})$/.exec(input.time);
  if (day === null || time === null) return null;
  const [year, month, date] = [Number(day[1]), Number(day[2]), Number(day[3])];
  const [hour, minute] = [Number(time[1]), Number(time[2])];
  if (hour > 23 || minute > 59) return null;
  return new Date(year, month - 1, date, hour, minute).getTime();
}

/** The local day of an instant, as `2026-03-04`. */
export function localDay(atMs: number): string {
  const at = new Date(atMs);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

/** The local time of day of an instant, as `17:00`. */
export function localTime(atMs: number): string {
  const at = new Date(atMs);
  return `${String(at.getHours()).padStart(2, '0')}:${String(at.getMinutes()).padStart(2, '0')}`;
}
