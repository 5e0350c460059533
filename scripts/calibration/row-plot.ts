/** Plots of a calibration as SVG text: rows of dots with their spans, and histograms side by side. Greys only. */
import { scaleLinear } from 'd3-scale';

const WIDTH = 720;
const INK = '#111';
const GREY = '#777';
const PALE = '#ddd';
const ZONE = '#eee';
const LABELS = 250;
const ROW = 22;
const TOP = 14;
const BOTTOM = 44;

const r = (value: number): string => String(Math.round(value * 10) / 10);
const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

function svg(of: { title: string; width: number; height: number; parts: readonly string[] }): string {
  const { title, width, height, parts } = of;
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${r(width)} ${r(height)}" role="img" font-family="sans-serif" font-size="12">`,
    `<title>${escaped(title)}</title>`,
    `<rect width="${r(width)}" height="${r(height)}" fill="#fff"/>`,
    ...parts,
    '</svg>',
  ].join('\n')}\n`;
}

export interface PlotRow {
  readonly label: string;
  readonly value: number;
  /** Where the true value may lie. */
  readonly low?: number;
  readonly high?: number;
  /** At most, or at least, this: a stroke across the row. */
  readonly goal?: number | null;
  /** A hollow dot: not the main thing. */
  readonly isLesser?: boolean;
}

/** One row a thing, its value as a dot and its span as a line; the zone is where all should lie. */
export function rowPlot(of: {
  title: string;
  xLabel: string;
  from: number;
  to: number;
  zone?: readonly [number, number];
  rows: readonly PlotRow[];
}): string {
  const { title, xLabel, from, to, zone, rows } = of;
  const x = scaleLinear([from, to], [LABELS, WIDTH - 20]).clamp(true);
  const bottom = TOP + rows.length * ROW;
  const line = (at: number, y1: number, y2: number, stroke: string, width = 1): string =>
    `<line x1="${r(at)}" x2="${r(at)}" y1="${r(y1)}" y2="${r(y2)}" stroke="${stroke}" stroke-width="${width}"/>`;
  const parts = [
    ...(zone === undefined
      ? []
      : [`<rect x="${r(x(zone[0]))}" y="${TOP}" width="${r(x(zone[1]) - x(zone[0]))}" height="${r(bottom - TOP)}" fill="${ZONE}"/>`]),
    ...x.ticks(8).flatMap((tick) => [
      line(x(tick), TOP, bottom, PALE),
      `<text x="${r(x(tick))}" y="${r(bottom + 16)}" text-anchor="middle" fill="${INK}">${Number(tick.toPrecision(6))}</text>`,
    ]),
    `<text x="${r((LABELS + WIDTH - 20) / 2)}" y="${r(bottom + 36)}" text-anchor="middle" fill="${INK}">${escaped(xLabel)}</text>`,
    ...rows.flatMap(({ label, value, low, high, goal, isLesser }, i) => {
      const y = TOP + (i + 0.5) * ROW;
      return [
        `<text x="${LABELS - 10}" y="${r(y + 4)}" text-anchor="end" fill="${INK}">${escaped(label)}</text>`,
        ...(goal === undefined || goal === null ? [] : [line(x(goal), y - 9, y + 9, INK, 2)]),
        ...(low === undefined || high === undefined
          ? []
          : [`<line x1="${r(x(low))}" x2="${r(x(high))}" y1="${r(y)}" y2="${r(y)}" stroke="${GREY}" stroke-width="2"/>`]),
        `<circle cx="${r(x(value))}" cy="${r(y)}" r="4.5" fill="${isLesser === true ? '#fff' : INK}" stroke="${INK}"/>`,
      ];
    }),
  ];
  return svg({ title, width: WIDTH, height: bottom + BOTTOM, parts });
} // prettier-ignore

const PANEL = { width: 232, height: 150, left: 8, top: 24, bottom: 12 };
const ACROSS = 3;

/** Counts in equal bins, three panels a row; the line is what even ranks would give, the zone nine counts in ten about it. */
export function histograms(of: {
  title: string;
  panels: readonly { readonly label: string; readonly bins: readonly number[] }[];
}): string {
  const parts = of.panels.flatMap(({ label, bins }, i) => {
    const left = PANEL.left + (i % ACROSS) * PANEL.width;
    const top = Math.floor(i / ACROSS) * PANEL.height;
    const total = bins.reduce((sum, count) => sum + count, 0);
    const each = total / bins.length;
    const slack = 1.645 * Math.sqrt(each * (1 - 1 / bins.length));
    const y = scaleLinear([0, Math.max(...bins, each + slack)], [top + PANEL.height - PANEL.bottom, top + PANEL.top]);
    const x = scaleLinear([0, bins.length], [left, left + PANEL.width - 24]);
    const across = `x="${r(x(0))}" width="${r(x(bins.length) - x(0))}"`;
    return [
      `<text x="${r(left)}" y="${r(top + 16)}" fill="${INK}">${escaped(`${label} (${total})`)}</text>`,
      `<rect ${across} y="${r(y(each + slack))}" height="${r(y(each - slack) - y(each + slack))}" fill="${ZONE}"/>`,
      ...bins.map(
        (count, k) =>
          `<rect x="${r(x(k) + 1)}" width="${r(x(1) - x(0) - 2)}" y="${r(y(count))}" height="${r(y(0) - y(count))}" fill="${GREY}"/>`,
      ),
      `<line x1="${r(x(0))}" x2="${r(x(bins.length))}" y1="${r(y(each))}" y2="${r(y(each))}" stroke="${INK}"/>`,
    ];
  });
  const rows = Math.ceil(of.panels.length / ACROSS);
  return svg({ title: of.title, width: ACROSS * PANEL.width, height: rows * PANEL.height, parts });
} // prettier-ignore
