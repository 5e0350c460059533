/** Small plots as SVG text: curves of the model in black, published points with their spans, greys only. */
import { scaleLinear, scaleLog } from 'd3-scale';
import { line } from 'd3-shape';

export interface PlotPoint {
  readonly x: number;
  readonly y: number;
  /** Where the published value may lie. */
  readonly low?: number;
  readonly high?: number;
}

export interface PlotCurve {
  readonly label: string;
  readonly points: readonly (readonly [x: number, y: number])[];
}

export interface Plot {
  readonly title: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly isXLog?: boolean;
  readonly isYLog?: boolean;
  readonly curves: readonly PlotCurve[];
  /** Published points, each set with its own mark: filled, hollow, square, hollow square. */
  readonly published: readonly { readonly label: string; readonly points: readonly PlotPoint[] }[];
}

const WIDTH = 640;
const HEIGHT = 400;
const MARGIN = { top: 34, right: 16, bottom: 46, left: 62 };
const DASHES = ['', '7 4', '2 3', '10 3 2 3', '4 2'];
const INK = '#111';
const GREY = '#777';
const PALE = '#ddd';

const r = (value: number): string => String(Math.round(value * 10) / 10);
const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

interface Scale {
  (value: number): number;
  ticks(count: number): number[];
}

function scaleFor(of: { values: readonly number[]; isLog: boolean; range: readonly [number, number] }): Scale {
  const finite = of.values.filter((value) => Number.isFinite(value) && (!of.isLog || value > 0));
  const low = Math.min(...finite);
  const high = Math.max(...finite);
  if (of.isLog) return scaleLog([low, high], of.range).nice();
  const pad = 0.03 * (high - low || 1);
  return scaleLinear([low >= 0 && low < 3 * pad ? 0 : low - pad, high + pad], of.range).nice();
}

const tickText = (value: number): string =>
  value !== 0 && (Math.abs(value) >= 1e5 || Math.abs(value) < 1e-3)
    ? value.toExponential(0)
    : String(Number(value.toPrecision(6)));

/** Marks that differ without colour. */
function mark(of: { set: number; x: number; y: number }): string {
  const fill = of.set % 2 === 0 ? INK : '#fff';
  return of.set % 4 < 2
    ? `<circle cx="${r(of.x)}" cy="${r(of.y)}" r="4" fill="${fill}" stroke="${INK}"/>`
    : `<rect x="${r(of.x - 3.5)}" y="${r(of.y - 3.5)}" width="7" height="7" fill="${fill}" stroke="${INK}"/>`;
}

/** The plot as one SVG document. */
export function plotSvg(plot: Plot): string {
  const all = plot.published.flatMap(({ points }) => points);
  const drawn = plot.curves.flatMap(({ points }) => points);
  const x = scaleFor({
    values: [...all.map((point) => point.x), ...drawn.map(([each]) => each)],
    isLog: plot.isXLog === true,
    range: [MARGIN.left, WIDTH - MARGIN.right],
  });
  const y = scaleFor({
    values: [
      ...all.flatMap((point) => [point.y, point.low ?? point.y, point.high ?? point.y]),
      ...drawn.map(([, each]) => each),
    ],
    isLog: plot.isYLog === true,
    range: [HEIGHT - MARGIN.bottom, MARGIN.top],
  });
  const isInside = (value: number, isLog: boolean | undefined): boolean =>
    Number.isFinite(value) && (isLog !== true || value > 0);
  const path = line<readonly [number, number]>()
    .defined(([a, b]) => isInside(a, plot.isXLog) && isInside(b, plot.isYLog))
    .x(([a]) => x(a))
    .y(([, b]) => y(b))
    .digits(1);
  const ticks = (scale: Scale, isLog: boolean | undefined, count: number): number[] => {
    const found = scale.ticks(count);
    return isLog === true && found.length > 9
      ? found.filter((each) => /^1(\.0*)?e/.test(each.toExponential(3)))
      : found;
  };
  const parts = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" font-family="sans-serif" font-size="12">`,
    `<title>${escaped(plot.title)}</title>`,
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="#fff"/>`,
    ...ticks(x, plot.isXLog, 8).map(
      (each) =>
        `<line x1="${r(x(each))}" x2="${r(x(each))}" y1="${MARGIN.top}" y2="${HEIGHT - MARGIN.bottom}" stroke="${PALE}"/>` +
        `<text x="${r(x(each))}" y="${HEIGHT - MARGIN.bottom + 16}" text-anchor="middle" fill="${INK}">${tickText(each)}</text>`,
    ),
    ...ticks(y, plot.isYLog, 6).map(
      (each) =>
        `<line x1="${MARGIN.left}" x2="${WIDTH - MARGIN.right}" y1="${r(y(each))}" y2="${r(y(each))}" stroke="${PALE}"/>` +
        `<text x="${MARGIN.left - 6}" y="${r(y(each) + 4)}" text-anchor="end" fill="${INK}">${tickText(each)}</text>`,
    ),
    `<text x="${(MARGIN.left + WIDTH - MARGIN.right) / 2}" y="${HEIGHT - 8}" text-anchor="middle" fill="${INK}">${escaped(plot.xLabel)}</text>`,
    `<text transform="translate(14 ${(MARGIN.top + HEIGHT - MARGIN.bottom) / 2}) rotate(-90)" text-anchor="middle" fill="${INK}">${escaped(plot.yLabel)}</text>`,
    ...plot.curves.map(
      ({ points }, i) =>
        `<path d="${path(points) ?? ''}" fill="none" stroke="${INK}" stroke-width="1.5" stroke-dasharray="${DASHES[i % DASHES.length] ?? ''}"/>`,
    ),
    ...plot.published.flatMap(({ points }, set) =>
      points.flatMap((point) => [
        ...(point.low === undefined || point.high === undefined
          ? []
          : [
              `<line x1="${r(x(point.x))}" x2="${r(x(point.x))}" y1="${r(y(point.low))}" y2="${r(y(point.high))}" stroke="${GREY}" stroke-width="2"/>`,
            ]),
        mark({ set, x: x(point.x), y: y(point.y) }),
      ]),
    ),
    ...legend(plot),
    '</svg>',
  ];
  return `${parts.join('\n')}\n`;
}

/** One row above the frame: dashes of the curves, marks of the points. */
function legend(plot: Plot): string[] {
  let at = MARGIN.left;
  const next = (label: string): number => {
    const here = at;
    at += 44 + 6.2 * label.length;
    return here;
  };
  return [
    ...plot.curves.map(({ label }, i) => {
      const x = next(label);
      return (
        `<line x1="${r(x)}" x2="${r(x + 26)}" y1="18" y2="18" stroke="${INK}" stroke-width="1.5" stroke-dasharray="${DASHES[i % DASHES.length] ?? ''}"/>` +
        `<text x="${r(x + 31)}" y="22" fill="${INK}">${escaped(label)}</text>`
      );
    }),
    ...plot.published.map(({ label }, set) => {
      const x = next(label);
      return `${mark({ set, x: x + 18, y: 18 })}<text x="${r(x + 28)}" y="22" fill="${INK}">${escaped(label)}</text>`;
    }),
  ];
}

/** So many values evenly between two ends. */
export const evenly = (low: number, high: number, count = 80): number[] =>
  Array.from({ length: count + 1 }, (_, i) => low + ((high - low) * i) / count);
