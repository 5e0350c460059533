/** Dates and clock times as loggers write them. Which instant is meant is the caller's: this room knows no clock. */

/** A date whose order is written out, or three figures whose first two may stand either way round. */
export type WrittenDate =
  | { readonly year: number; readonly month: number; readonly day: number }
  | { readonly year: number; readonly first: number; readonly second: number };

export interface Stamp {
  /** Null where only a clock time is written. */
  readonly date: WrittenDate | null;
  /** Null where only a date is written. */
  readonly clock: { readonly hours: number; readonly minutes: number; readonly seconds: number } | null;
  /** Minutes ahead of UTC where the stamp says so (`Z`, `+01:00`), else null: a wall clock. */
  readonly utcOffsetMin: number | null;
}

export type DayOrder = 'day-first' | 'month-first';

/** A moment on the calendar; `utcOffsetMin` null means the wall clock where the file is read. */
export interface Moment {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  readonly hours: number;
  readonly minutes: number;
  readonly seconds: number;
  readonly utcOffsetMin: number | null;
}

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const CLOCK = /^(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?(?:\s*([ap])\.?\s?m\.?)?$/i;
const YEAR_FIRST = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/;
const YEAR_LAST = /^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})$/;
const MONTH_NAMED = /^(\d{1,2})[-\s]([a-z]{3,9})\.?[-\s](\d{4}|\d{2})$/i;
const BEHIND = /\s*(Z|UTC|[+-]\d{2}:?\d{2})$/;

/**
 * Reads one cell as a date, a clock time, or both; null where it is neither.
 * Two figures of a year mean this century (common practice, no source).
 */
export function readStamp(cell: string): Stamp | null {
  const text = cell.trim();
  if (text.length === 0 || text.length > 40) return null;
  const whole = datePart(text);
  if (whole !== null) return { date: whole, clock: null, utcOffsetMin: null };
  const alone = clockPart(text);
  if (alone !== null) return { date: null, clock: alone, utcOffsetMin: null };
  const zone = BEHIND.exec(text);
  const local = zone === null ? text : text.slice(0, zone.index);
  const split = /^(.+?)(?:T|,?\s+)(\d{1,2}:.+)$/.exec(local);
  const date = datePart(split?.[1]?.trim() ?? '');
  const clock = clockPart(split?.[2]?.trim() ?? '');
  if (date === null || clock === null) return null;
  return { date, clock, utcOffsetMin: zone === null ? null : offsetOf(zone[1] ?? 'Z') };
}

function datePart(text: string): WrittenDate | null {
  const first = YEAR_FIRST.exec(text);
  if (first !== null) return { year: Number(first[1]), month: Number(first[2]), day: Number(first[3]) };
  const last = YEAR_LAST.exec(text);
  if (last !== null) return { year: fullYear(last[3] ?? ''), first: Number(last[1]), second: Number(last[2]) };
  const named = MONTH_NAMED.exec(text);
  const month = MONTHS.indexOf((named?.[2] ?? '').slice(0, 3).toLowerCase()) + 1;
  return named === null || month === 0 ? null : { year: fullYear(named[3] ?? ''), month, day: Number(named[1]) };
}

const fullYear = (digits: string): number => (digits.length === 2 ? 2000 + Number(digits) : Number(digits));

function clockPart(text: string): Stamp['clock'] {
  const match = CLOCK.exec(text);
  if (match === null) return null;
  const [, hourText = '', minuteText = '', secondText = '0', half] = match;
  const written = Number(hourText);
  const minutes = Number(minuteText);
  const seconds = Number(secondText);
  if (minutes > 59 || seconds > 59 || written > (half === undefined ? 23 : 12)) return null;
  if (half === undefined) return { hours: written, minutes, seconds };
  return { hours: (written % 12) + (half.toLowerCase() === 'p' ? 12 : 0), minutes, seconds };
}

function offsetOf(text: string): number {
  const match = /^([+-])(\d{2}):?(\d{2})$/.exec(text);
  if (match === null) return 0;
  return (match[1] === '-' ? -1 : 1) * (Number(match[2]) * 60 + Number(match[3]));
}

/** Year, month and day in the order that is meant; null where the calendar has no such day. */
export function calendarDay(date: WrittenDate, order: DayOrder): Pick<Moment, 'year' | 'month' | 'day'> | null {
  const isDayFirst = order === 'day-first';
  const { year } = date;
  const month = 'month' in date ? date.month : isDayFirst ? date.second : date.first;
  const day = 'month' in date ? date.day : isDayFirst ? date.first : date.second;
  if (month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) return null;
  return { year, month, day };
}

function daysIn(year: number, month: number): number {
  if (month !== 2) return [4, 6, 9, 11].includes(month) ? 30 : 31;
  return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
}

/**
 * Which way round the days and months of a file stand. Null where both ways are possible: that has to be asked.
 * A figure above 12 decides, and so does a file in which the two are always the same.
 */
export function dayOrderOf(stamps: readonly Stamp[]): DayOrder | null {
  const pairs = stamps.flatMap(({ date }) => (date !== null && 'first' in date ? [date] : []));
  if (pairs.some(({ first }) => first > 12)) return 'day-first';
  if (pairs.some(({ second }) => second > 12)) return 'month-first';
  return pairs.every(({ first, second }) => first === second) ? 'day-first' : null;
}
