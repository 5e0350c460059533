import { readNumber } from './number-cell.ts';
import { dayOrderOf, readStamp, type DayOrder, type Stamp } from './stamp.ts';

/** Rows of a file, each a list of cells; what is quoted or escaped is undone already. */
export type Rows = readonly (readonly string[])[];

/** How a time column counts: a date or clock time, or a number since the logger was started, or since 1970. */
export type TimeKind = 'stamp' | 'seconds' | 'minutes' | 'hours' | 'unix-s' | 'unix-ms';

export interface TimeColumn {
  readonly column: number;
  /** Null where the file does not say what the numbers count: that has to be asked. */
  readonly kind: TimeKind | null;
  /** The date where it has a column of its own. */
  readonly dateColumn: number | null;
}

/** Which column is what. Null means that the file does not say it. */
export interface LoggerMapping {
  /** Rows above the first values: a title, the names of the columns. */
  readonly headRows: number;
  readonly time: TimeColumn | null;
  readonly temperature: { readonly column: number; readonly unit: 'C' | 'F' | null } | null;
  readonly pHColumn: number | null;
  readonly dayOrder: DayOrder | null;
}

/** Values looked at to tell what a column holds. */
const LOOKED_AT = 200;
const MOSTLY = 0.5;
/** A number of seconds since 1970 lies after 2001, one of milliseconds a thousand times further on. */
const UNIX_S = 1e9;
const UNIX_MS = 1e12;

const TIME_WORDS = /time|stamp|clock|date|hour|min|sec|elapsed|zeit|uhr|datum|heure|hora|fecha|tiempo|ora|tid/i;
const TEMPERATURE_WORDS = /temp|°|º|celsius|fahrenheit|probe|sonde|sonda|f[uü]hler|kanal|channel|\bch\s?\d/i;
const PH_WORDS = /(^|[^a-z])ph([^a-z]|$)/i;
const UNITS: readonly (readonly [kind: TimeKind, words: RegExp])[] = [
  ['unix-ms', /unix.*ms|epoch.*ms/i],
  ['unix-s', /unix|epoch/i],
  ['seconds', /(^|[^a-z])(s|secs?|seconds?|sekunden|segundos)([^a-z]|$)/i],
  ['minutes', /(^|[^a-z])(mins?|minutes?|minuten|minutos)([^a-z]|$)/i],
  ['hours', /(^|[^a-z])(h|hrs?|hours?|stunden|horas)([^a-z]|$)/i],
];

/** The proposal for one file, and what was seen on the way. */
export function proposeMapping(rows: Rows): LoggerMapping {
  const headRows = headOf(rows);
  const names = columnNames(rows, headRows);
  const body = rows.slice(headRows, headRows + LOOKED_AT).filter((row) => !isBlank(row));
  const columns = names.map((name, column) => columnOf({ name, column, body }));
  const time = timeColumn(columns);
  const isFree = ({ column }: Column): boolean => column !== time?.column && column !== time?.dateColumn;
  const values = columns.filter((one) => one.numbers >= MOSTLY && isFree(one));
  const pH = values.find(({ name }) => PH_WORDS.test(name)) ?? null;
  const rest = values.filter((one) => one !== pH);
  const warm = rest.find(({ name }) => TEMPERATURE_WORDS.test(name)) ?? (pH === null ? rest[0] : undefined) ?? null;
  const dates = columns.find(({ column }) => column === (time?.dateColumn ?? time?.column));
  return {
    headRows,
    time,
    temperature: warm === null ? null : { column: warm.column, unit: warm.cellUnit ?? unitNamed(warm.name) },
    pHColumn: pH?.column ?? null,
    dayOrder: dayOrderOf(dates?.stamps ?? []),
  };
}

export const isBlank = (row: readonly string[]): boolean => row.every((cell) => cell.trim() === '');

/** What the file calls its columns; empty text where it does not. */
export function columnNames(rows: Rows, headRows: number): readonly string[] {
  const above = rows.slice(0, headRows).filter((row) => row.filter((cell) => cell.trim() !== '').length > 1).at(-1) ?? []; // prettier-ignore
  // As wide as its heading, or as half its rows; a row that is wider still has a cell too many.
  const widths = rows.slice(headRows, headRows + LOOKED_AT).map(filledWidth).filter((width) => width > 0).sort((a, b) => a - b); // prettier-ignore
  const width = widths[Math.floor((widths.length - 1) / 2)] ?? 0;
  return Array.from({ length: Math.max(width, above.length) }, (_, column) => (above[column] ?? '').trim());
}

const filledWidth = (row: readonly string[]): number =>
  row.reduce((width, cell, column) => (cell.trim() === '' ? width : column + 1), 0);

/** One text for files that look alike, so that what was chosen for one is proposed for the next. */
export function signatureOf(rows: Rows, mapping: Pick<LoggerMapping, 'headRows'>): string {
  return columnNames(rows, mapping.headRows).map((name) => name.toLowerCase().replaceAll(/\s+/g, ' ').slice(0, 40)).join('|'); // prettier-ignore
}

const isValue = (cell: string): boolean => readStamp(cell) !== null || readNumber(cell) !== null;

/** Rows above the first that holds two values or more in places where another row has them too. */
function headOf(rows: Rows): number {
  const places = rows.map((row) => row.flatMap((cell, column) => (isValue(cell) ? [String(column)] : [])).join());
  const counts = new Map<string, number>();
  for (const place of places) counts.set(place, (counts.get(place) ?? 0) + 1);
  const shared = places.findIndex((place) => place.includes(',') && (counts.get(place) ?? 0) > 1);
  const start = shared === -1 ? places.findIndex((place) => place.includes(',')) : shared;
  return start === -1 ? rows.length : start;
}

interface Column {
  readonly name: string;
  readonly column: number;
  readonly stamps: readonly Stamp[];
  /** Shares of the filled cells that read as a full stamp, a date, a clock time, a number. */
  readonly full: number;
  readonly dates: number;
  readonly clocks: number;
  readonly numbers: number;
  readonly values: readonly number[];
  readonly cellUnit: 'C' | 'F' | null;
}

function columnOf(input: { readonly name: string; readonly column: number; readonly body: Rows }): Column {
  const { name, column, body } = input;
  const cells = body.flatMap((row) => ((row[column] ?? '').trim() === '' ? [] : [row[column] ?? '']));
  const stamps = cells.flatMap((cell) => readStamp(cell) ?? []);
  const numbers = cells.flatMap((cell) => readNumber(cell) ?? []);
  const share = (count: number): number => (cells.length === 0 ? 0 : count / cells.length);
  const unit = numbers[0]?.unit ?? null;
  return {
    name,
    column,
    stamps,
    full: share(stamps.filter(({ date, clock }) => date !== null && clock !== null).length),
    dates: share(stamps.filter(({ clock }) => clock === null).length),
    clocks: share(stamps.filter(({ date }) => date === null).length),
    numbers: share(numbers.length),
    values: numbers.map(({ value }) => value),
    cellUnit: numbers.every((cell) => cell.unit === unit) ? unit : null,
  };
}

function timeColumn(columns: readonly Column[]): TimeColumn | null {
  const full = columns.find((one) => one.full >= MOSTLY);
  if (full !== undefined) return { column: full.column, kind: 'stamp', dateColumn: null };
  const clock = columns.find((one) => one.clocks >= MOSTLY);
  const date = columns.find((one) => one.dates >= MOSTLY);
  if (clock !== undefined) return { column: clock.column, kind: 'stamp', dateColumn: date?.column ?? null };
  const rising = columns.filter((one) => one.numbers >= MOSTLY && one.cellUnit === null && isRising(one.values));
  const counted = rising.find(({ name }) => TIME_WORDS.test(name)) ?? rising.find(({ name }) => name === '');
  return counted === undefined ? null : { column: counted.column, kind: countedIn(counted), dateColumn: null };
}

const isRising = (values: readonly number[]): boolean =>
  values.length > 1 && values.every((value, index) => index === 0 || value > (values[index - 1] ?? value));

function countedIn({ name, values }: Column): TimeKind | null {
  const first = values[0] ?? 0;
  if (first >= UNIX_MS) return 'unix-ms';
  if (first >= UNIX_S) return 'unix-s';
  return UNITS.find(([, words]) => words.test(name.replaceAll('_', ' ')))?.[0] ?? null;
}

function unitNamed(name: string): 'C' | 'F' | null {
  const text = name.replaceAll('_', ' ');
  if (/fahrenheit|[°º]\s?F\b|\bdeg\.?\s?F\b|(^|[^a-z])F([^a-z]|$)/i.test(text)) return 'F';
  return /celsius|[°º]\s?C\b|\bdeg\.?\s?C\b|(^|[^a-z])C([^a-z]|$)/i.test(text) ? 'C' : null;
}
