import { judgeValue } from '../../make/quantity.ts';
import { convert } from '../../numbers/units.ts';
import { columnNames, isBlank, type LoggerMapping, type Rows, type TimeKind } from './mapping.ts';
import { momentOf, type Day } from './moment.ts';
import { readNumber } from './number-cell.ts';
import type { DayOrder, Moment } from './stamp.ts';
import { PACES, thin, type Pace } from './thin.ts';

export type LoggerQuantity = 'temperatureC' | 'pH';

/** A value of the file at the instant it was taken, in the canonical unit. */
export interface LoggerReading {
  /** Row of the file, 1 for the first. */
  readonly row: number;
  readonly quantity: LoggerQuantity;
  readonly value: number;
  /** Milliseconds UTC. */
  readonly at: number;
}

export type FaultCode =
  'no-time' | 'time-unreadable' | 'no-such-day' | 'no-value' | 'not-a-number' | 'impossible' | 'too-many-cells';

/** What is wrong with one cell, and where it stands. */
export interface RowFault {
  readonly row: number;
  /** As the file calls it; its number where it has no name. */
  readonly column: string;
  readonly value: string;
  readonly code: FaultCode;
  /** What would be possible, where a range is. */
  readonly expected?: string;
}

/** What became of a row. A row with a fault in one cell may still have given a reading by another. */
export type RowFate = 'head' | 'blank' | 'reading' | 'thinned' | 'known' | 'outside' | 'fault';

/** A mapping in which nothing is left to be asked. */
export interface SettledMapping extends LoggerMapping {
  readonly time: { readonly column: number; readonly kind: TimeKind; readonly dateColumn: number | null };
  readonly temperature: { readonly column: number; readonly unit: 'C' | 'F' } | null;
  readonly dayOrder: DayOrder;
}

/** What the file cannot say and its reader must. */
export type Question = 'time' | 'timeUnit' | 'value' | 'unit' | 'dayOrder' | 'startedAt';

/** What is still to be asked before a file can be read. */
export function openQuestions(input: {
  readonly mapping: LoggerMapping;
  /** When the logger was started, milliseconds UTC; needed where it counts from there. */
  readonly startedAt: number | null;
}): readonly Question[] {
  const { time, temperature, pHColumn, dayOrder } = input.mapping;
  const counts = time !== null && ['seconds', 'minutes', 'hours'].includes(time.kind ?? '');
  return [
    ...(time === null ? (['time'] as const) : time.kind === null ? (['timeUnit'] as const) : []),
    ...(counts && input.startedAt === null ? (['startedAt'] as const) : []),
    ...(temperature === null && pHColumn === null ? (['value'] as const) : []),
    ...(temperature !== null && temperature.unit === null ? (['unit'] as const) : []),
    ...(dayOrder === null ? (['dayOrder'] as const) : []),
  ];
}

/** The mapping as one that can be read with; null while something has to be asked. */
export function settled(mapping: LoggerMapping): SettledMapping | null {
  const { time, temperature, dayOrder, pHColumn } = mapping;
  if (time === null || time.kind === null || dayOrder === null) return null;
  if (temperature === null && pHColumn === null) return null;
  if (temperature === null) return { ...mapping, time: { ...time, kind: time.kind }, temperature, dayOrder };
  const { unit } = temperature;
  return unit === null ? null : { ...mapping, time: { ...time, kind: time.kind }, temperature: { ...temperature, unit }, dayOrder }; // prettier-ignore
}

export interface LoggerOutcome {
  /** What would be noted, in time order. */
  readonly readings: readonly LoggerReading[];
  /** Everything of the make's hours, thinned or not, for the drawing. */
  readonly all: readonly LoggerReading[];
  readonly faults: readonly RowFault[];
  /** One a row of the file. */
  readonly fates: readonly RowFate[];
  /** At which pace each quantity was kept. */
  readonly paces: Readonly<Partial<Record<LoggerQuantity, Pace>>>;
}

/**
 * Reads the rows of a logger's file by a settled mapping: every row becomes a reading, is left out for a reason that
 * is told, or is named in a fault. No cell is computed: what begins like a formula is text.
 *
 * @param input.day          the day that clock times without a date belong to; past midnight they go on to the next
 * @param input.instantOf    the instant of a moment on the calendar, milliseconds UTC
 * @param input.startedAt    when the logger was started, for columns that count from there
 * @param input.clockAheadMs how far the logger's clock stood ahead of the wall clock; taken off every stamp
 * @param input.fromAt, input.toAt  the make's hours; rows beside them are left out
 * @param input.known        `quantity at value` of what the record has already
 */
export function readLogger(input: {
  readonly rows: Rows;
  readonly mapping: SettledMapping;
  readonly day: Day;
  readonly instantOf: (moment: Moment) => number;
  readonly startedAt: number | null;
  readonly clockAheadMs: number;
  readonly fromAt: number;
  readonly toAt: number;
  readonly known: ReadonlySet<string>;
}): LoggerOutcome {
  const { rows, mapping, fromAt, toAt, known } = input;
  const names = columnNames(rows, mapping.headRows);
  const nameOf = (column: number): string => names[column] || String(column + 1);
  const fates = rows.map((): RowFate => 'blank');
  const faults: RowFault[] = [];
  const series: Record<LoggerQuantity, LoggerReading[]> = { temperatureC: [], pH: [] };
  let before: Moment | null = null;

  for (const [index, cells] of rows.entries()) {
    if (index < mapping.headRows) fates[index] = 'head';
    if (index < mapping.headRows || isBlank(cells)) continue;
    const row = index + 1;
    const fault = (column: number, code: FaultCode, expected?: string): void => {
      fates[index] = 'fault';
      faults.push({ row, column: nameOf(column), value: (cells[column] ?? '').trim().slice(0, 40), code, ...(expected === undefined ? {} : { expected }) }); // prettier-ignore
    };
    const beyond = cells.findIndex((cell, column) => column >= names.length && cell.trim() !== '');
    if (beyond !== -1) {
      fault(beyond, 'too-many-cells');
      continue;
    }
    const told = momentOf({ cells, mapping, before, day: input.day, startedAt: input.startedAt });
    if ('fault' in told) {
      fault(told.column, told.fault);
      continue;
    }
    if (told.moment !== null) before = told.moment;
    const at = Math.round((told.moment === null ? told.at : input.instantOf(told.moment)) - input.clockAheadMs);
    for (const found of valuesOf(cells, mapping)) {
      if ('fault' in found) fault(found.column, found.fault, found.expected);
      else if (at < fromAt || at > toAt) fates[index] = fates[index] === 'fault' ? 'fault' : 'outside';
      else series[found.quantity].push({ row, quantity: found.quantity, value: found.value, at });
    }
  }

  const paces: Partial<Record<LoggerQuantity, Pace>> = {};
  const readings: LoggerReading[] = [];
  const all: LoggerReading[] = [];
  const mark = (one: LoggerReading, fate: RowFate): void => {
    const now = fates[one.row - 1];
    // What says more of a row goes before what says less.
    if (now !== 'fault' && now !== 'reading') fates[one.row - 1] = fate;
  };
  for (const quantity of ['temperatureC', 'pH'] as const) {
    const inTime = series[quantity].sort((a, b) => a.at - b.at);
    if (inTime.length === 0) continue;
    const { kept, left, pace } = thin(inTime, PACES[quantity]);
    paces[quantity] = pace;
    all.push(...inTime);
    for (const one of left) mark(one, 'thinned');
    for (const one of kept) {
      const isKnown = known.has(knownKey(one));
      mark(one, isKnown ? 'known' : 'reading');
      if (!isKnown) readings.push(one);
    }
  }
  return { readings: readings.sort((a, b) => a.at - b.at), all, faults, fates, paces };
}

/** By what a reading of the record is known again. */
export const knownKey = (one: { readonly quantity: string; readonly at: number; readonly value: number }): string =>
  `${one.quantity} ${one.at} ${one.value}`;

type Found =
  | { readonly quantity: LoggerQuantity; readonly value: number }
  | { readonly column: number; readonly fault: FaultCode; readonly expected?: string };

/** The values of one row, or what is wrong with them; an empty cell is a fault only where the row says nothing else. */
function valuesOf(cells: readonly string[], mapping: SettledMapping): readonly Found[] {
  const asked = [
    ...(mapping.temperature === null ? [] : [{ quantity: 'temperatureC' as const, ...mapping.temperature }]),
    ...(mapping.pHColumn === null ? [] : [{ quantity: 'pH' as const, column: mapping.pHColumn, unit: 'C' as const }]),
  ];
  const filled = asked.filter(({ column }) => (cells[column] ?? '').trim() !== '');
  if (filled.length === 0) return [{ column: asked[0]?.column ?? 0, fault: 'no-value' }];
  return filled.map(({ quantity, column, unit }): Found => {
    const cell = readNumber(cells[column] ?? '');
    if (cell === null || (quantity === 'pH' && cell.unit !== null)) return { column, fault: 'not-a-number' };
    const isFahrenheit = quantity === 'temperatureC' && (cell.unit ?? unit) === 'F';
    const value = isFahrenheit ? convert({ value: cell.value, from: 'F', to: 'C' }) : cell.value;
    const typed = judgeValue({ quantity, value, field: quantity });
    if (typed.verdict === 'refused') return { column, fault: 'impossible', expected: typed.problem.expected };
    return { quantity, value: Math.round(value * 1000) / 1000 };
  });
}
