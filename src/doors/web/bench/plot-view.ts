/** What a sum draws: its own points, or itself asked for a run of one blank. Pure; the drawing is `curve-plot.tsx`. */
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import { joined } from '../../../exchange/told/rounding.ts';
import type { SumQuestion, SumReply } from './sum-messages.ts';
import type { PlotLine, PlotShape } from '../../../exchange/told/sum-shapes.ts';
import { resultLabel, sayFirst } from '../../../exchange/told/sum-words.ts';
import { typedSymbol, typedValue, unitOfField } from '../../../exchange/told/unit-of.ts';
import { numberAt, valueAtPath } from '../../../exchange/told/value-at.ts';

export interface CurvePoint {
  readonly x: number;
  readonly y: number;
  /** Nine in ten lie between; null without a band. */
  readonly low: number | null;
  readonly high: number | null;
}
export interface Curve {
  readonly label: string;
  readonly points: readonly CurvePoint[];
}
export interface PlotView {
  readonly summary: string;
  readonly xName: string;
  readonly yName: string;
  readonly curves: readonly Curve[];
  readonly marks: readonly { readonly x: number; readonly y: number }[];
  readonly aims: readonly number[];
  /** Names of the band's lower and upper end. */
  readonly bandNames: { readonly low: string; readonly high: string };
  readonly yText: (value: number) => string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

const SWEEP_POINTS = 25; // our own choice: smooth to the eye, quick to ask
const MOST_ROWS = 25; // of the table behind the plot

interface Given {
  readonly sum: string;
  readonly shape: PlotShape;
  readonly given: Readonly<Record<string, unknown>>;
  readonly result: unknown;
}

/** The questions of a sweep; none for a sum that draws its own points. */
export function sweepQuestions({ sum, shape, given, result }: Given): readonly SumQuestion[] {
  if (shape.kind !== 'sweep') return [];
  const end = (
    of: number | { readonly input: string } | { readonly result: string; readonly times: number },
  ): number | null =>
    typeof of === 'number'
      ? of
      : 'input' in of
        ? numberAt(given, of.input)
        : scaled(numberAt(result, of.result), of.times);
  const from = end(shape.from);
  const to = end(shape.to);
  if (from === null || to === null || !(to > from)) return [];
  const rest = Object.fromEntries(
    Object.entries(given).filter(([key]) => key !== shape.over && !shape.without.includes(key)),
  );
  return Array.from({ length: SWEEP_POINTS }, (_, index) => ({
    name: sum,
    input: { ...rest, [shape.over]: from + ((to - from) * index) / (SWEEP_POINTS - 1) },
  }));
}

const scaled = (value: number | null, times: number): number | null => (value === null ? null : value * times);

/** The plot of a sum; null while there are too few points to draw. */
export function plotView(
  input: Given & {
    readonly swept: readonly SumReply[];
    readonly questions: readonly SumQuestion[];
    readonly say: Say;
    readonly write: Writer;
  },
): PlotView | null {
  const { sum, shape, given, result, say, write } = input;
  const xPath = shape.kind === 'curve' ? shape.x : shape.x === 'over' ? shape.over : shape.x.result;
  const yPath = (line: PlotLine): string => (line.y === 'over' && shape.kind === 'sweep' ? shape.over : line.y);
  const firstY = shape.lines[0] === undefined ? '' : yPath(shape.lines[0]);
  const x = axis({ path: xPath, write });
  const y = axis({ path: firstY.replace(/\.p50$/, ''), write });
  const points = shape.kind === 'curve' ? ownPoints({ shape, given, result }) : sweptPoints(input, shape);
  const curves = shape.lines.map((line): Curve => ({
    label: resultLabel({ say, sum, path: yPath(line).replace(/\.p50$/, '') }),
    points: points.flatMap((point): CurvePoint[] => {
      const at = numberAt(point, shape.kind === 'sweep' && shape.x === 'over' ? 'over' : xPath);
      const value = numberAt(point, line.y);
      if (at === null || value === null) return [];
      const low = line.low === undefined ? null : numberAt(point, line.low);
      const high = line.high === undefined ? null : numberAt(point, line.high);
      const band =
        low === null || high === null ? null : [y.turned(Math.min(low, high)), y.turned(Math.max(low, high))];
      return [{ x: x.turned(at), y: y.turned(value), low: band?.[0] ?? null, high: band?.[1] ?? null }];
    }),
  }));
  if (curves.every((curve) => curve.points.length < 2)) return null;
  const marks = shape.kind === 'curve' && shape.marks !== undefined ? marksOf({ given, marks: shape.marks, x, y }) : [];
  const aims =
    shape.kind === 'curve' && shape.aims !== undefined ? aimsOf({ given, result, path: shape.aims }).map(y.turned) : [];
  const xName =
    sayFirst(say, [`bench:plot.along.${x.symbol}`]) ?? named(resultLabel({ say, sum, path: xPath }), x.symbol);
  const yName = curves.length === 1 ? named(curves[0]?.label ?? '', y.symbol) : y.symbol;
  const ends = shape.lines[0]?.ends ?? 'nineInTen';
  const bandNames = { low: say(`bench:plot.ends.${ends}.low`), high: say(`bench:plot.ends.${ends}.high`) };
  return {
    summary: sayFor({ say, curves, x, y }),
    xName,
    yName,
    curves,
    marks,
    aims,
    bandNames,
    yText: y.text,
    ...table({ curves, xName, x, y, bandNames }),
  };
}

const named = (label: string, symbol: string): string => (symbol === '' ? label : `${label}, ${symbol}`);

interface Axis {
  readonly symbol: string;
  readonly turned: (value: number) => number;
  readonly text: (turned: number) => string;
  readonly full: (turned: number) => string;
}

/** Numbers along an axis in the reader's units. */
function axis(input: { readonly path: string; readonly write: Writer }): Axis {
  const unit = unitOfField(input.path);
  const { units } = input.write;
  const symbol = input.write.unit(typedSymbol({ unit, units }));
  const text = (value: number): string => (Number.isInteger(value) && unit.decimals !== 2 ? String(value) : input.write.number(value, unit.decimals ?? (Math.abs(value) < 10 ? 2 : 1))); // prettier-ignore
  return {
    symbol,
    turned: (value) => typedValue({ value, unit, units }) ?? value,
    text,
    full: (value) => joined({ number: text(value), unit: symbol }),
  };
}

function ownPoints(input: {
  readonly shape: Extract<PlotShape, { kind: 'curve' }>;
  readonly given: unknown;
  readonly result: unknown;
}): readonly unknown[] {
  const { points } = input.shape;
  const found = points.startsWith('input:')
    ? valueAtPath(input.given, points.slice(6))
    : valueAtPath(input.result, points);
  return Array.isArray(found) ? (found as readonly unknown[]) : [];
}

/** Each answer of the sweep with the value it was asked for, under `over`. */
function sweptPoints(
  input: { readonly swept: readonly SumReply[]; readonly questions: readonly SumQuestion[] },
  shape: Extract<PlotShape, { kind: 'sweep' }>,
): readonly unknown[] {
  return input.swept.flatMap((reply, index) => {
    const over = numberAt(input.questions[index]?.input, shape.over);
    if (!('answer' in reply) || over === null || typeof reply.answer.result !== 'object') return [];
    return [{ ...reply.answer.result, over }];
  });
}

function marksOf(input: {
  readonly given: unknown;
  readonly marks: { readonly rows: string; readonly x: string; readonly y: string };
  readonly x: Axis;
  readonly y: Axis;
}): { x: number; y: number }[] {
  const rows = valueAtPath(input.given, input.marks.rows);
  if (!Array.isArray(rows)) return [];
  return (rows as readonly unknown[]).flatMap((row) => {
    const x = numberAt(row, input.marks.x);
    const y = numberAt(row, input.marks.y);
    return x === null || y === null ? [] : [{ x: input.x.turned(x), y: input.y.turned(y) }];
  });
}

function aimsOf(input: { readonly given: unknown; readonly result: unknown; readonly path: string }): number[] {
  const { given, result, path } = input;
  const aims = path.startsWith('result:') ? [valueAtPath(result, path.slice(7))] : valueAtPath(given, path);
  return Array.isArray(aims)
    ? (aims as readonly unknown[]).filter((aim): aim is number => typeof aim === 'number')
    : [];
}

/** The plot in a sentence: where each curve begins and ends. */
function sayFor(input: {
  readonly say: Say;
  readonly curves: readonly Curve[];
  readonly x: Axis;
  readonly y: Axis;
}): string {
  const { say, curves, x, y } = input;
  return curves
    .flatMap((curve) => {
      const first = curve.points[0];
      const last = curve.points.at(-1);
      if (first === undefined || last === undefined) return [];
      return [say('bench:plot.sentence', { what: curve.label, from: y.full(round(first.y)), to: y.full(round(last.y)), start: x.full(round(first.x)), end: x.full(round(last.x)) })]; // prettier-ignore
    })
    .join(' ');
}

const round = (value: number): number => Number(value.toPrecision(4));

function table(input: {
  readonly curves: readonly Curve[];
  readonly xName: string;
  readonly x: Axis;
  readonly y: Axis;
  readonly bandNames: PlotView['bandNames'];
}): { readonly columns: readonly string[]; readonly rows: readonly (readonly string[])[] } {
  const { curves, xName, x, y, bandNames } = input;
  const isBanded = curves.length === 1 && (curves[0]?.points.some((point) => point.low !== null) ?? false);
  const longest = curves.reduce(
    (most, curve) => (curve.points.length > most.length ? curve.points : most),
    curves[0]?.points ?? [],
  );
  const every = Math.max(1, Math.ceil((longest.length - 1) / MOST_ROWS));
  const picked = longest
    .map((_, index) => index)
    .filter((index) => index % every === 0 || index === longest.length - 1);
  const cell = (value: number | null | undefined): string =>
    value === null || value === undefined ? '' : y.text(round(value));
  return {
    columns: [
      xName,
      ...curves.map((curve) => named(curve.label, y.symbol)),
      ...(isBanded ? [bandNames.low, bandNames.high] : []),
    ],
    rows: picked.map((index) => [
      x.text(round(longest[index]?.x ?? 0)),
      ...curves.map((curve) => cell(curve.points[index]?.y)),
      ...(isBanded ? [cell(curves[0]?.points[index]?.low), cell(curves[0]?.points[index]?.high)] : []),
    ]),
  };
}
