/** What a sum answers, line by line: the first results large, the others beneath, each with its span. */
import type { Say } from '../words.ts';
import type { Writer } from '../written.ts';
import { isRecord } from '../../make/problems.ts';
import { joined, saidNumber, spanText, type Ends, type SaidNumber } from './rounding.ts';
import { firstOf, type SumShape } from './sum-shapes.ts';
import { optionLabel, resultLabel } from './sum-words.ts';
import { unitOfField, type FieldUnit } from './unit-of.ts';
import { numberAt, valueAtPath } from './value-at.ts';

export interface AnswerLine {
  readonly path: string;
  readonly label: string;
  /** A number with its unit, or words. */
  readonly said: SaidNumber | string;
  /** "9 times in 10 between 4.5 and 8.2 mL"; null where the sum gives none. */
  readonly span: string | null;
}
export interface AnswerTable {
  readonly path: string;
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}
export interface AnswerView {
  readonly first: readonly AnswerLine[];
  readonly more: readonly AnswerLine[];
  readonly tables: readonly AnswerTable[];
}

interface Asked {
  readonly sum: string;
  readonly shape: SumShape;
  /** The input as it was asked, for units that a blank names. */
  readonly given: Readonly<Record<string, unknown>>;
  readonly result: unknown;
  /** True where a table has the width of a page of text: what each part of a margin is stays out of it. */
  readonly brief?: boolean;
  readonly say: Say;
  readonly write: Writer;
}

const PARTS_OF_SPANS = new Set(['span', 'spans']);

/** The answer of a sum for eyes. */
export function answerView(asked: Asked): AnswerView {
  const { shape, result, given } = asked;
  const scalars = Object.keys(isRecord(result) ? result : {}).filter((path) => !PARTS_OF_SPANS.has(path));
  const firstPaths = firstOf({ shape, given });
  const chosen = firstPaths.length > 0 ? firstPaths : scalars.filter((path) => hasNumber(valueAtPath(result, path))).slice(0, 1); // prettier-ignore
  const drawn = shape.plot?.kind === 'curve' ? shape.plot.points : '';
  const listed = scalars.filter((path) => path !== drawn && !(shape.quiet ?? []).includes(path));
  const rest = listed.filter((path) => !chosen.includes(path) && !/(StandardError|Span)$/.test(path));
  return {
    first: chosen.flatMap((path) => linesAt({ asked, path })),
    more: rest.filter((path) => !isTable(valueAtPath(result, path))).flatMap((path) => linesAt({ asked, path })),
    tables: listed.flatMap((path) => tableAt({ asked, path })),
  };
}

const hasNumber = (value: unknown): boolean => typeof value === 'number' || numberAt(value, 'p50') !== null;
const isTable = (value: unknown): boolean => Array.isArray(value);

function linesAt(input: { readonly asked: Asked; readonly path: string }): AnswerLine[] {
  const { asked, path } = input;
  const { result, sum, say } = asked;
  const value = valueAtPath(result, path);
  const label = resultLabel({ say, sum, path });
  if (value === undefined) return [];
  if (value === null) return [{ path, label, said: nothing(asked, path), span: null }];
  if (typeof value === 'boolean') return [{ path, label, said: optionLabel({ say, sum, path, value: value ? 'yes' : 'no' }), span: null }]; // prettier-ignore
  if (typeof value === 'string') return [{ path, label, said: optionLabel({ say, sum, path, value }), span: null }];
  if (typeof value === 'number') return [numberLine({ asked, path, label, value })];
  if (Array.isArray(value)) return [{ path, label, said: namesIn(value) ?? nothing(asked, path), span: null }];
  if (!isRecord(value)) return [];
  const middle = numberAt(value, 'p50');
  if (middle !== null) return [numberLine({ asked, path, label, value: middle })];
  return Object.entries(value).flatMap(([key, inner]) =>
    isRecord(inner) && 'probability' in inner
      ? [targetLine({ asked, path, key, inner })]
      : linesAt({ asked, path: `${path}.${key}` }),
  );
}

const MOST_NAMES = 8; // more are in the table

/** The names in a list of named things, in a line; null for an empty list. */
function namesIn(list: readonly unknown[]): string | null {
  const names = list.flatMap((item) => (isRecord(item) && typeof item['name'] === 'string' ? [item['name']] : []));
  return names.length === 0 ? null : `${names.slice(0, MOST_NAMES).join(', ')}${names.length > MOST_NAMES ? ' …' : ''}`;
}

const nothing = (asked: Asked, path: string): string =>
  optionLabel({ say: asked.say, sum: asked.sum, path, value: 'none' });

function numberLine(input: {
  readonly asked: Asked;
  readonly path: string;
  readonly label: string;
  readonly value: number;
}): AnswerLine {
  const { asked, path, label, value } = input;
  const named = namedUnit(asked, path);
  // A share of one is said in percent.
  const isShare = path.endsWith('Fraction');
  const unit = named ?? (isShare ? SHARE : unitOfField(path));
  const ends = endsOf({ result: asked.result, path, isFirst: firstOf(asked)[0] === path });
  const { said, low, high } = saidNumber({
    value: isShare ? 100 * value : value,
    ends: ends?.ends ?? null,
    unit,
    write: asked.write,
  });
  const span =
    ends === null || low === null || high === null
      ? null
      : asked.say(`bench:spans.${ends.kind}`, {
          between: spanText({ low, high, and: asked.say('bench:and') }),
          low: joined(low),
          high: joined(high),
        });
  return { path, label, said, span };
}

/** The unit where a result names it in words (`unit`), or a blank does (`input:to`). */
function namedUnit(asked: Asked, path: string): FieldUnit | null {
  const from = asked.shape.unitFrom?.[path];
  if (from === undefined) return null;
  const name = from.startsWith('input:') ? asked.given[from.slice(6)] : valueAtPath(asked.result, from);
  if (typeof name !== 'string') return null;
  const field = from.replace('input:', '');
  return {
    house: null,
    symbol: optionLabel({ say: asked.say, sum: asked.sum, path: field, value: name }),
    decimals: null,
  };
}

type SpanKind = 'nineInTen' | 'between' | 'quickToSlow' | 'upTo';

/** The span of a result, wherever its sum keeps it. */
function endsOf(input: { readonly result: unknown; readonly path: string; readonly isFirst: boolean }): {
  readonly ends: Ends;
  readonly kind: SpanKind;
} | null {
  const { result, path, isFirst } = input;
  const places = [
    valueAtPath(result, `span.${path}`),
    valueAtPath(result, `spans.${path}`),
    valueAtPath(result, `${path}Span`),
    valueAtPath(result, path),
  ];
  // A sum with one span and one answer keeps it bare.
  if (isFirst) places.push(valueAtPath(result, 'span'));
  for (const place of places) {
    const band = pair(place, 'p5', 'p95');
    if (band !== null) return { ends: band, kind: 'nineInTen' };
    const p50 = numberAt(place, 'p50');
    const p95 = numberAt(place, 'p95');
    if (p50 !== null && p95 !== null) return { ends: { low: p50, high: p95 }, kind: 'upTo' };
    const lowHigh = pair(place, 'low', 'high');
    if (lowHigh !== null) return { ends: lowHigh, kind: 'between' };
    const quick = numberAt(place, 'quick');
    const slow = numberAt(place, 'slow');
    if (quick !== null && slow !== null) return { ends: { low: Math.min(quick, slow), high: Math.max(quick, slow) }, kind: 'quickToSlow' }; // prettier-ignore
  }
  const value = numberAt(result, path);
  const error = numberAt(result, `${path}StandardError`) ?? (isFirst ? numberAt(result, 'error') : null);
  if (value === null || error === null) return null;
  // A standard error to a 90 % span; a plain error is one already.
  const half = numberAt(result, `${path}StandardError`) === null ? error : 1.645 * error;
  return { ends: { low: value - half, high: value + half }, kind: 'nineInTen' };
}

function pair(place: unknown, lowKey: string, highKey: string): Ends | null {
  const low = numberAt(place, lowKey);
  const high = numberAt(place, highKey);
  return low === null || high === null ? null : { low, high };
}

/** When a wanted value is reached, and how likely that is: `minutesToPH` and its like. */
function targetLine(input: {
  readonly asked: Asked;
  readonly path: string;
  readonly key: string;
  readonly inner: Readonly<Record<PropertyKey, unknown>>;
}): AnswerLine {
  const { asked, path, key, inner } = input;
  const { say, write } = asked;
  const middle = numberAt(inner, 'p50');
  const low = numberAt(inner, 'p5');
  const high = numberAt(inner, 'p95');
  const label = say(`bench:targets.${path}`, { target: write.number(Number(key), 2) });
  const tens = Math.round(10 * (numberAt(inner, 'probability') ?? 0));
  const chance = tens >= 10 ? '' : tens <= 0 ? say('bench:targets.never') : say('bench:targets.chance', { tens });
  if (middle === null) return { path: `${path}.${key}`, label, said: say('bench:targets.none'), span: chance };
  const ends = low === null || high === null ? null : { low, high };
  const said = saidNumber({ value: middle, ends, unit: unitOfField(path), write });
  const band = said.low === null || said.high === null ? '' : say('bench:spans.nineInTen', { between: spanText({ low: said.low, high: said.high, and: say('bench:and') }) }); // prettier-ignore
  return {
    path: `${path}.${key}`,
    label,
    said: said.said,
    span: [band, chance].filter((text) => text !== '').join('; ') || null,
  };
}

/** A short list of a sum as a table; lists of one number each are no table. */
function tableAt(input: { readonly asked: Asked; readonly path: string }): AnswerTable[] {
  const { asked, path } = input;
  const { say, sum, write, result } = asked;
  const rows = valueAtPath(result, path);
  if (!Array.isArray(rows) || rows.length === 0) return [];
  const all: readonly unknown[] = rows;
  const first = all[0];
  if (!isRecord(first)) return [];
  const columns = Object.keys(first).filter(
    (key) => !QUIET_COLUMNS.has(key) && !(asked.brief === true && /.MarginPoints$/.test(key)),
  );
  const cell = (row: unknown, key: string): string => {
    const value = valueAtPath(row, key);
    if (key === 'name' && valueAtPath(row, 'unconfirmed') === true)
      return say('bench:unconfirmed', { name: String(value) });
    if (typeof value === 'number') return joined(saidNumber({ value, ends: null, unit: unitOfField(key), write }).said);
    if (typeof value === 'boolean') return optionLabel({ say, sum, path: key, value: value ? 'yes' : 'no' });
    return typeof value === 'string' ? value : '';
  };
  return [
    {
      path,
      caption: resultLabel({ say, sum, path }),
      columns: columns.map((key) => resultLabel({ say, sum, path: key })),
      rows: all.map((row) => columns.map((key) => cell(row, key))),
    },
  ];
}

const SHARE: FieldUnit = { house: null, symbol: '%', decimals: null };
const QUIET_COLUMNS = new Set(['id', 'source', 'unconfirmed']);
