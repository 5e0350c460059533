/**
 * Published values against ours. One row of `published/*.csv` is one value of a paper or book:
 * `id,case,published,low,high,unit,tolerance,source`.
 *
 * Tolerance is the source's own: `span` (inside low to high as printed), `3%` of the published value, or `0.5abs`.
 * A row that does not pass must stand in `published/known-misses.csv` (`id,reason`); a row that stands there and
 * passes fails too, so the list can only tell the truth.
 */
import { readFileSync, readdirSync } from 'node:fs';

export interface PublishedRow {
  /** Unique over all files: `curd-A10`. */
  readonly id: string;
  readonly case: string;
  readonly published: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly unit: string;
  readonly tolerance: string;
  readonly source: string;
  /** The row as read, for columns a file has beside these (inputs). */
  readonly columns: Readonly<Record<string, string>>;
}

const folder = new URL('../../published/', import.meta.url);
const KNOWN_MISSES_FILE = 'known-misses.csv';

/** Cells of a CSV text (RFC 4180: quoted cells may hold commas, doubled quotes and line ends), blank lines left out. */
export function parseCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = '';
  let quoted = false;
  const endRow = (): void => {
    row.push(cell);
    if (row.some((each) => each !== '')) rows.push(row);
    row = [];
    cell = '';
  };
  for (let i = 0; i < text.length; i++) {
    const c = text.charAt(i);
    if (quoted) {
      if (c === '"' && text.charAt(i + 1) === '"') {
        cell += '"';
        i++;
      } else if (c === '"') quoted = false;
      else cell += c;
    } else if (c === '"') quoted = true;
    else if (c === ',') {
      row.push(cell);
      cell = '';
    } else if (c === '\n') endRow();
    else if (c !== '\r') cell += c;
  }
  if (quoted) throw new Error('a quoted cell is never closed');
  endRow();
  return rows;
}

function records(file: string): Record<string, string>[] {
  const [header = [], ...rows] = parseCsv(readFileSync(new URL(file, folder), 'utf8'));
  return rows.map((row, index) => {
    if (row.length !== header.length) {
      throw new Error(`${file}: row ${index + 2} has ${row.length} cells, the header has ${header.length}`);
    }
    return Object.fromEntries(header.map((name, column) => [name, row[column] ?? '']));
  });
}

/**
 * A row to which several makes answer (`makes`, ids with spaces between) is read once for each: `process-F13-cut-size.MAKE`,
 * its make in the column `make`. A family that has no make yet answers to nothing.
 */
function forEachMake(columns: Record<string, string>): Record<string, string>[] {
  const makes = columns['makes'];
  if (makes === undefined) return [columns];
  return makes
    .split(' ')
    .filter((make) => make !== '')
    .map((make) => ({
      ...columns,
      make,
      id: `${columns['id'] ?? ''}.${make}`,
      case: `${make}: ${columns['case'] ?? ''}`,
    }));
}

/** The rows of one file in `published/`, every cell checked. */
export function readPublished(file: string): PublishedRow[] {
  const rows = records(file)
    .flatMap(forEachMake)
    .map((columns): PublishedRow => {
      const text = (name: string): string => {
        const cell = columns[name];
        if (cell === undefined || cell === '') throw new Error(`${file}: ${columns['id'] ?? '?'} lacks ${name}`);
        return cell;
      };
      const number = (name: string): number => {
        const value = Number(text(name));
        if (!Number.isFinite(value)) throw new Error(`${file}: ${columns['id'] ?? '?'}: ${name} is not a number`);
        return value;
      };
      const optional = (name: string): number | null => ((columns[name] ?? '') === '' ? null : number(name));
      const row: PublishedRow = {
        id: text('id'),
        case: text('case'),
        published: number('published'),
        low: optional('low'),
        high: optional('high'),
        unit: text('unit'),
        tolerance: text('tolerance'),
        source: text('source'),
        columns,
      };
      toleranceBand(row);
      return row;
    });
  if (rows.length === 0) throw new Error(`${file} has no rows`);
  const ids = new Set(rows.map((row) => row.id));
  if (ids.size !== rows.length) throw new Error(`${file} uses an id twice`);
  return rows;
}

/** Every file of published values there is. */
export function publishedFiles(): string[] {
  return readdirSync(folder).filter((name) => name.endsWith('.csv') && name !== KNOWN_MISSES_FILE);
}

/** Known misses: reason by row id. */
export function knownMisses(): ReadonlyMap<string, string> {
  return new Map(
    records(KNOWN_MISSES_FILE).map((record) => {
      const { id = '', reason = '' } = record;
      if (id === '' || reason.length < 20) throw new Error(`${KNOWN_MISSES_FILE}: ${id} needs an id and a reason`);
      return [id, reason];
    }),
  );
}

/** The band a value must lie in for its row to pass. */
export function toleranceBand(row: PublishedRow): { low: number; high: number } {
  if (row.tolerance === 'span') {
    if (row.low === null || row.high === null) throw new Error(`${row.id}: a span needs low and high`);
    return { low: row.low, high: row.high };
  }
  const match = /^([\d.]+)(%|abs)$/.exec(row.tolerance);
  const size = Number(match?.[1]);
  if (match === null || !(size > 0)) throw new Error(`${row.id}: tolerance ${row.tolerance} is not understood`);
  const half = match[2] === '%' ? (Math.abs(row.published) * size) / 100 : size;
  return { low: row.published - half, high: row.published + half };
}

/** Our value of every row of one file, by row id. */
export type PublishedValues = Readonly<Record<string, () => number>>;

/** What became of one row. */
export interface Judged {
  readonly row: PublishedRow;
  readonly value: number;
  readonly passes: boolean;
  /** Why it may miss, where it is listed. */
  readonly reason: string | null;
  /** What is wrong: an unlisted miss, or a listed one that passes; null when all is as it should be. */
  readonly fault: string | null;
}

/** Our value beside one published row. */
export function judge(row: PublishedRow, value: number, misses = knownMisses()): Judged {
  const { low, high } = toleranceBand(row);
  const slack = 1e-9 * Math.max(1, Math.abs(row.published)); // rounding of floating point only
  const passes = value >= low - slack && value <= high + slack;
  const reason = misses.get(row.id) ?? null;
  const said = `${row.id} (${row.case}): ours ${value.toPrecision(5)}, published ${row.published} ${row.unit}, passes within ${low} to ${high}; ${row.source}`;
  const fault =
    !passes && reason === null
      ? `${said}: a miss that is not listed`
      : passes && reason !== null
        ? `${said}: listed as a known miss, but passes: take it off the list`
        : null;
  return { row, value, passes, reason, fault };
}

/** @throws Error when an unlisted row misses, or a listed one no longer does */
export function checkRow(row: PublishedRow, value: number, misses = knownMisses()): void {
  const { fault } = judge(row, value, misses);
  if (fault !== null) throw new Error(fault);
}

/** Our values for one file of `published/`, from the module of the same name in `values/`. */
export async function valuesOf(file: string): Promise<PublishedValues> {
  const name = file.replace(/\.csv$/, '');
  const module = (await import(`./values/${name}.ts`)) as { values?: PublishedValues };
  if (module.values === undefined) throw new Error(`values/${name}.ts exports no values`);
  return module.values;
}
