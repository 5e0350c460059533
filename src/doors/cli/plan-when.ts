/** Dates and times of the command line on the wall clock of this device. */
import type { ClockWish } from '../../exchange/schedule.ts';
import { InputError, type Problem } from '../../numbers/validity.ts';
import { UsageError } from './world.ts';

const USUAL_START = '09:00'; // where neither start nor end is said; our own choice
const DAY_MS = 86_400_000;

/**
 * What the maker wishes of the clock. Without a date it is today, or tomorrow where that time of today has passed.
 * @throws UsageError where both start and end are given; InputError for a time or date that cannot be
 */
export function wishFrom(input: {
  readonly start: string | undefined;
  readonly doneBy: string | undefined;
  readonly date: string | undefined;
  readonly now: number;
}): ClockWish {
  const { start, doneBy, date, now } = input;
  if (start !== undefined && doneBy !== undefined) throw new UsageError('give either --start or --done-by, not both.');
  const mode = doneBy === undefined ? 'start-at' : 'done-by';
  const field = doneBy === undefined ? 'start' : 'done-by';
  const time = doneBy ?? start ?? USUAL_START;
  const problems: Problem[] = [];
  const clock = /^(\d{1,2}):(\d{2})$/.exec(time);
  const [hour, minute] = [Number(clock?.[1] ?? 99), Number(clock?.[2] ?? 99)];
  if (hour > 23 || minute > 59) {
    problems.push({ code: 'impossible', field, value: time, expected: 'a time of day such as 17:00', remedy: 'Write hours and minutes.' }); // prettier-ignore
  }
  const day = dayOf(date, now);
  if (day === null) {
    problems.push({ code: 'impossible', field: 'date', value: date, expected: 'a day such as 2026-03-02', remedy: 'Write year, month and day.' }); // prettier-ignore
  }
  if (problems.length > 0 || day === null) throw new InputError(problems);
  const at = new Date(day.year, day.month, day.date, hour, minute).getTime();
  const hasPassed = date === undefined && at < now;
  return { mode, at: hasPassed ? new Date(at + DAY_MS).setHours(hour, minute, 0, 0) : at };
}

function dayOf(
  date: string | undefined,
  now: number,
): { readonly year: number; readonly month: number; readonly date: number } | null {
  if (date === undefined) {
    const today = new Date(now);
    return { year: today.getFullYear(), month: today.getMonth(), date: today.getDate() };
  }
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date);
  if (match === null) return null;
  const day = { year: Number(match[1]), month: Number(match[2]) - 1, date: Number(match[3]) };
  const back = new Date(day.year, day.month, day.date);
  return back.getMonth() === day.month && back.getDate() === day.date ? day : null;
}
