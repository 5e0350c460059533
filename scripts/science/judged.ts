/** Every published row with our value, by model. */
import {
  judge,
  knownMisses,
  publishedFiles,
  readPublished,
  valuesOf,
  type Judged,
} from '../../tests/published/rows.ts';
import { modelOfRow } from './models.ts';

/** All rows of `published/`, judged; a row without a value of ours is a fault, as is a value without its row. */
export async function judgedRows(): Promise<{ readonly rows: readonly Judged[]; readonly faults: readonly string[] }> {
  const misses = knownMisses();
  const rows: Judged[] = [];
  const faults: string[] = [];
  const seen = new Set<string>();
  for (const file of publishedFiles()) {
    const values = await valuesOf(file);
    const published = readPublished(file);
    for (const row of published) {
      if (seen.has(row.id)) faults.push(`${row.id}: the id stands twice`);
      seen.add(row.id);
      const value = values[row.id];
      if (value === undefined) faults.push(`${row.id}: no value of ours`);
      else rows.push(judge(row, value(), misses));
    }
    const ids = new Set(published.map(({ id }) => id));
    faults.push(...Object.keys(values).flatMap((id) => (ids.has(id) ? [] : [`${id}: a value without its row`])));
  }
  faults.push(...rows.flatMap(({ fault }) => (fault === null ? [] : [fault])));
  faults.push(...[...misses.keys()].flatMap((id) => (seen.has(id) ? [] : [`${id}: a known miss without its row`])));
  return { rows, faults };
}

/** True for rows that ask what a make sets, not what a model says. */
export const isOfSchedule = (id: string): boolean => id.startsWith('process-');

/** Rows by model, in the order in which models first appear. */
export function byModel(rows: readonly Judged[]): ReadonlyMap<string, readonly Judged[]> {
  const groups = new Map<string, Judged[]>();
  for (const judged of rows) {
    const { id } = judged.row;
    const title = modelOfRow(id)?.title ?? (isOfSchedule(id) ? 'Schedules of the makes' : 'no model named');
    groups.set(title, [...(groups.get(title) ?? []), judged]);
  }
  return groups;
}

/** How far off: in percent of the published value, or plainly where that is zero or the tolerance is plain. */
export function errorText({ row, value }: Judged): string {
  const error = value - row.published;
  if (row.tolerance.endsWith('abs') || row.published === 0) return signed(error);
  return `${signed((100 * error) / Math.abs(row.published), 1)} %`;
}

/** The published value with its span, where it has one. */
export const publishedText = ({ row }: Judged): string =>
  row.low === null || row.high === null
    ? `${number(row.published)} ${unit(row.unit)}`.trim()
    : `${number(row.published)} (${number(row.low)} to ${number(row.high)}) ${unit(row.unit)}`.trim();

export const toleranceText = ({ row }: Judged): string =>
  row.tolerance === 'span' ? 'the span' : `±${row.tolerance.replace(/abs$/, '').replace('%', ' %')}`;

export const verdictText = ({ passes, reason }: Judged): string =>
  passes ? (reason === null ? 'ok' : 'LISTED, PASSES') : reason === null ? 'MISS' : 'known miss';

/** `9 of 10 within tolerance, 1 known miss; median error 3.1 %, largest 14 %`; null errors are of rows at zero. */
export function summaryText(rows: readonly Judged[]): string {
  const within = rows.filter(({ passes }) => passes).length;
  const known = rows.filter(({ passes, reason }) => !passes && reason !== null).length;
  const errors = rows
    .filter(({ row }) => row.published !== 0)
    .map(({ row, value }) => Math.abs((100 * (value - row.published)) / row.published))
    .sort((a, b) => a - b);
  const median = errors[Math.floor((errors.length - 1) / 2)] ?? 0;
  const misses = known === 0 ? '' : `, ${known} known ${known === 1 ? 'miss' : 'misses'}`;
  return `${within} of ${rows.length} within tolerance${misses}; median error ${small(median)}, largest ${small(errors.at(-1) ?? 0)}`;
}

const small = (percent: number): string => (percent < 0.01 ? 'under 0.01 %' : `${number(percent, 2)} %`);
const unit = (text: string): string => (text === '-' ? '' : text);

/** So many significant figures, without trailing zeros or a minus zero. */
export function number(value: number, figures = 5): string {
  const short = Number(value.toPrecision(figures));
  return String(short === 0 ? 0 : short);
}

function signed(value: number, decimals?: number): string {
  const text = decimals === undefined ? number(value, 2) : value.toFixed(decimals);
  return value >= 0 && !text.startsWith('-') ? `+${text}` : text;
}

/** What a row's source says of itself; a row may be of several kinds, each is named once. */
const KINDS: readonly { readonly says: string; readonly pattern: RegExp }[] = [
  { says: 'common practice (no source)', pattern: /common practice \(no source\)/i },
  {
    says: 'the model was calibrated or fitted on it',
    pattern: /calibrated on|dose factor fitted|fitted to the four times/i,
  },
  { says: 'from memory, not seen', pattern: /from memory/i },
  { says: 'seen at second hand', pattern: /second hand|as quoted/i },
];

/** How many rows rest on what, so that a count is not taken for more than it is. */
export function kindsText(rows: readonly Judged[]): string[] {
  return KINDS.map(({ says, pattern }) => {
    const count = rows.filter(({ row }) => pattern.test(`${row.case} ${row.source}`)).length;
    return `${count} of ${rows.length}: ${says}`;
  });
}
