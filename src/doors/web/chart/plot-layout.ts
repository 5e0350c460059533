import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import { bandAt } from './band-at.ts';
import type { Band } from '../../../forecast/forecast.ts';

/** What one plot shows, in minutes since the batch's zero and the quantity's own unit. Pure: the drawing is `ForecastPlot.tsx`. */
export interface PlotInput {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly fromMin: number;
  readonly toMin: number;
  /** Fixed range of the make, so that a plot does not rescale as readings come. */
  readonly low: number;
  readonly high: number;
  readonly nowMin: number | null;
  readonly gridMin: readonly number[];
  readonly band: Band;
}

export interface PlotLayout {
  readonly x: (minutes: number) => number;
  readonly y: (value: number) => number;
  /** Paths, empty strings where there is nothing to draw. */
  readonly most: string;
  readonly half: string;
  readonly mostLow: string;
  readonly mostHigh: string;
  readonly halfLow: string;
  readonly halfHigh: string;
  readonly median: string;
  readonly fitted: string;
  readonly valueTicks: readonly number[];
  /** Where the model's sums end, if before the frame does. */
  readonly endsMin: number | null;
  /** Right-hand ends of the band, for the labels that stand beside it. */
  readonly ends: { readonly high: number; readonly middle: number; readonly low: number } | null;
}

interface Point {
  readonly atMin: number;
  readonly p5: number;
  readonly p25: number;
  readonly p50: number;
  readonly p75: number;
  readonly p95: number;
}

/**
 * Scales and paths of a band over time. What lies behind `nowMin` is the fit so far (its median, thin); what lies
 * ahead is the band in two grades with its dashed median. Gaps (NaN) break the shapes instead of being bridged.
 */
export function layoutPlot(input: PlotInput): PlotLayout {
  const x = scaleLinear().domain([input.fromMin, input.toMin]).range([0, input.widthPx]);
  const y = scaleLinear().domain([input.low, input.high]).range([input.heightPx, 0]).clamp(true);
  const points = pointsOf(input);
  const ahead = points.filter((point) => input.nowMin === null || point.atMin >= input.nowMin);
  const behind = points.filter((point) => input.nowMin !== null && point.atMin <= input.nowMin);
  const known = (point: Point): boolean => Number.isFinite(point.p50);
  const pathOf = (value: (point: Point) => number) =>
    line<Point>(
      (point) => x(point.atMin),
      (point) => y(value(point)),
    ).defined(known);
  const between = (low: (point: Point) => number, high: (point: Point) => number) =>
    area<Point>(
      (point) => x(point.atMin),
      (point) => y(low(point)),
      (point) => y(high(point)),
    ).defined(known);
  const last = ahead.findLast(known);
  return {
    x,
    y,
    most: between((point) => point.p5, (point) => point.p95)(ahead) ?? '', // prettier-ignore
    half: between((point) => point.p25, (point) => point.p75)(ahead) ?? '', // prettier-ignore
    mostLow: pathOf((point) => point.p5)(ahead) ?? '',
    mostHigh: pathOf((point) => point.p95)(ahead) ?? '',
    halfLow: pathOf((point) => point.p25)(ahead) ?? '',
    halfHigh: pathOf((point) => point.p75)(ahead) ?? '',
    median: pathOf((point) => point.p50)(ahead) ?? '',
    fitted: pathOf((point) => point.p50)(behind) ?? '',
    valueTicks: y.ticks(5),
    endsMin: last === undefined || last.atMin >= input.toMin - 1 ? null : last.atMin,
    ends: last === undefined ? null : { high: y(last.p95), middle: y(last.p75), low: y(last.p5) },
  };
}

function pointsOf(input: PlotInput): Point[] {
  const { gridMin, band } = input;
  const at = (index: number): Point => ({
    atMin: gridMin[index] ?? Number.NaN,
    p5: band.p5[index] ?? Number.NaN,
    p25: band.p25[index] ?? Number.NaN,
    p50: band.p50[index] ?? Number.NaN,
    p75: band.p75[index] ?? Number.NaN,
    p95: band.p95[index] ?? Number.NaN,
  });
  const all = gridMin.map((_, index) => at(index));
  const inside = all.filter((point) => point.atMin >= input.fromMin && point.atMin <= input.toMin);
  // One point exactly at now, so that fit and forecast meet on the now-line.
  if (input.nowMin === null) return inside;
  const cut = bandAt({ gridMin, band, atMin: input.nowMin });
  if (cut === null) return inside;
  const here: Point = { atMin: input.nowMin, ...cut };
  return [...inside.filter((point) => point.atMin !== here.atMin), here].sort((a, b) => a.atMin - b.atMin);
}

/** Round clock times for the axis: hours, or half and quarter hours when the plot is short. */
export function clockTicks(input: {
  readonly fromAt: number;
  readonly toAt: number;
  readonly utcOffsetMin: number;
  readonly most: number;
}): number[] {
  const steps = [15, 30, 60, 120, 240, 360, 720, 1440];
  const spanMin = (input.toAt - input.fromAt) / 60_000;
  const stepMin = steps.find((step) => spanMin / step <= input.most) ?? 1440;
  const firstLocal = Math.ceil((input.fromAt / 60_000 + input.utcOffsetMin) / stepMin) * stepMin;
  const ticks: number[] = [];
  for (let local = firstLocal; (local - input.utcOffsetMin) * 60_000 <= input.toAt; local += stepMin) {
    ticks.push((local - input.utcOffsetMin) * 60_000);
  }
  return ticks;
}
