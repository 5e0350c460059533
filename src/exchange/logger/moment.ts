import type { FaultCode, SettledMapping } from './logger-file.ts';
import { readNumber } from './number-cell.ts';
import { calendarDay, readStamp, type Moment } from './stamp.ts';

export type Day = Pick<Moment, 'year' | 'month' | 'day'>;

/** When a row was taken: a moment on the calendar, or an instant where the column counts; or what is wrong with it. */
export type Told =
  | { readonly moment: Moment }
  | { readonly moment: null; readonly at: number }
  | { readonly column: number; readonly fault: FaultCode };

/** Half a day: a clock that goes back by more than this has passed midnight. */
const HALF_DAY_S = 43_200;

const MS_OF = { seconds: 1000, minutes: 60_000, hours: 3_600_000, 'unix-s': 1000, 'unix-ms': 1 } as const;

/**
 * The time of one row.
 * @param input.before the moment of the row before it, so that clock times without a date go on past midnight
 */
export function momentOf(input: {
  readonly cells: readonly string[];
  readonly mapping: SettledMapping;
  readonly before: Moment | null;
  readonly day: Day;
  readonly startedAt: number | null;
}): Told {
  const { cells, mapping, before, day } = input;
  const { column, kind, dateColumn } = mapping.time;
  const text = (cells[column] ?? '').trim();
  if (text === '') return { column, fault: 'no-time' };
  if (kind !== 'stamp') {
    const counted = readNumber(text);
    if (counted === null || counted.unit !== null) return { column, fault: 'time-unreadable' };
    const zeroAt = kind === 'unix-s' || kind === 'unix-ms' ? 0 : (input.startedAt ?? Number.NaN);
    const at = zeroAt + counted.value * MS_OF[kind];
    return Number.isFinite(at) ? { moment: null, at } : { column, fault: 'time-unreadable' };
  }
  const stamp = readStamp(text);
  if (stamp === null || stamp.clock === null) return { column, fault: 'time-unreadable' };
  const { clock, utcOffsetMin } = stamp;
  const dated = dateColumn === null ? stamp.date : readStamp(cells[dateColumn] ?? '')?.date;
  if (dated === undefined || (dated === null && dateColumn !== null)) {
    return { column: dateColumn ?? column, fault: 'time-unreadable' };
  }
  if (dated !== null) {
    const on = calendarDay(dated, mapping.dayOrder);
    return on === null ? { column: dateColumn ?? column, fault: 'no-such-day' } : { moment: { ...on, ...clock, utcOffsetMin } }; // prettier-ignore
  }
  if (before === null) return { moment: { ...day, ...clock, utcOffsetMin } };
  const seconds = (moment: Pick<Moment, 'hours' | 'minutes' | 'seconds'>): number => moment.hours * 3600 + moment.minutes * 60 + moment.seconds; // prettier-ignore
  // The calendar's own carry makes the 32nd of a month the first of the next.
  const carry = seconds(before) - seconds(clock) > HALF_DAY_S ? 1 : 0;
  return { moment: { ...before, ...clock, day: before.day + carry, utcOffsetMin } };
}
