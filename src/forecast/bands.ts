import { positionsOf } from '../numbers/positions.ts';
import { newOrdering, spreadBetween, type Ordering } from '../numbers/sort.ts';
import { quantileSorted } from '../numbers/stats.ts';
import { seededRandom } from '../numbers/random.ts';
import type { Band, BandQuantity, StepForecast } from './forecast.ts';
import { TRACED, TRACE_EVERY_MIN, TRACE_POINTS, type MemberRun } from './run.ts';

/**
 * Members with weights turned into `count` members of equal weight (systematic resampling, Kitagawa 1996), so that every
 * quantile after it is a plain one. Deterministic for a seed.
 */
export function equalMembers<R>(input: {
  results: readonly R[];
  weights: Float64Array;
  count: number;
  seed: number;
}): R[] {
  const { results, weights, count } = input;
  const total = weights.reduce((sum, w) => sum + w, 0);
  const offset = seededRandom(input.seed).uniform();
  const chosen: R[] = [];
  let cumulative = 0;
  let index = -1;
  for (let i = 0; i < count; i++) {
    const wanted = ((i + offset) / count) * total;
    while (cumulative <= wanted && index < results.length - 1) cumulative += weights[++index] ?? 0;
    const result = results[Math.max(index, 0)];
    if (result !== undefined) chosen.push(result);
  }
  return chosen;
}

/** Fewer members than this share still there: no band is drawn. */
const LEAST_SHARE = 0.1; // our own choice

/** Moments laid out at once: so few that the processor's nearest memory holds all members at them. Our own choice. */
const AT_ONCE = 8;

/** Bands over time of every traced quantity, cut where the last member has ended. */
export function traceBands(runs: readonly MemberRun[]): {
  gridMin: number[];
  bands: Record<BandQuantity, Band>;
} {
  const at = positionsOf(TRACED);
  const traces = runs.map(({ trace }) => trace);
  const spans = TRACED.map((_, place) => spanOf(traces, place));
  const points = Math.max(1, ...spans.map(({ end }) => end));
  const moments = new Float64Array(AT_ONCE * runs.length);
  const work = newOrdering(runs.length);
  const band = (quantity: BandQuantity): Band =>
    bandOf({ traces, place: at[quantity], span: spans[at[quantity]] ?? NO_SPAN, points, moments, work });
  return {
    gridMin: Array.from({ length: points }, (_, p) => p * TRACE_EVERY_MIN),
    bands: {
      pH: band('pH'),
      wheyPH: band('wheyPH'),
      temperatureC: band('temperatureC'),
      curdMoisturePercent: band('curdMoisturePercent'),
      curdKg: band('curdKg'),
      saltPercent: band('saltPercent'),
    },
  };
}

/** Points of the grid from the first to before the last that any member has a value at. */
interface TracedSpan {
  readonly first: number;
  readonly end: number;
}

const NO_SPAN: TracedSpan = { first: 0, end: 0 };

function spanOf(traces: readonly Float32Array[], place: number): TracedSpan {
  const start = place * TRACE_POINTS;
  let first = TRACE_POINTS;
  let end = 0;
  for (const trace of traces) {
    let before = 0;
    while (before < first && Number.isNaN(trace[start + before])) before++;
    first = before;
    let after = TRACE_POINTS;
    while (after > end && Number.isNaN(trace[start + after - 1])) after--;
    end = after;
  }
  return { first, end };
}

/**
 * One quantity's band; NaN where too few members have it. Some moments at a time are laid out one after the other, all members
 * of each side by side, and spread: that is how memory likes it.
 */
function bandOf(of: {
  traces: readonly Float32Array[];
  place: number;
  span: TracedSpan;
  points: number;
  moments: Float64Array;
  work: Ordering;
}): Band {
  const { traces, place, span, points, moments, work } = of;
  const members = traces.length;
  const nothing = Array.from({ length: points }, () => Number.NaN);
  const band = { p5: nothing.slice(), p25: nothing.slice(), p50: nothing.slice(), p75: nothing.slice(), p95: nothing };
  const counts = new Int32Array(AT_ONCE);
  for (let first = span.first; first < span.end; first += AT_ONCE) {
    const width = Math.min(AT_ONCE, span.end - first);
    layOut({ traces, start: place * TRACE_POINTS + first, width, moments, counts });
    for (let k = 0; k < width; k++) {
      const count = counts[k] ?? 0;
      if (count === 0 || count < LEAST_SHARE * members) continue;
      const { p5, p25, p50, p75, p95 } = spreadBetween(moments, k * members, k * members + count, work);
      band.p5[first + k] = p5;
      band.p25[first + k] = p25;
      band.p50[first + k] = p50;
      band.p75[first + k] = p75;
      band.p95[first + k] = p95;
    }
  }
  return band;
}

/** Lays out so many moments, from one place of the traces on; `counts` says how many members have a value at each. */
function layOut(of: {
  traces: readonly Float32Array[];
  start: number;
  width: number;
  moments: Float64Array;
  counts: Int32Array;
}): void {
  const { traces, start, width, moments, counts } = of;
  const members = traces.length;
  counts.fill(0);
  for (let i = 0; i < members; i++) {
    const trace = traces[i];
    if (trace === undefined) continue;
    for (let k = 0; k < width; k++) {
      const value = trace[start + k] ?? Number.NaN;
      if (Number.isNaN(value)) continue;
      const count = counts[k] ?? 0;
      moments[k * members + count] = value;
      counts[k] = count + 1;
    }
  }
}

/**
 * Least half-width of a 90 % band of a time still to come: never under 10 % of the remaining time in milk, 15 % in drained
 * curd, nor 6 minutes. Acidification notes 5.5, rule 3 (our own rule, from runs the model was not fitted to).
 */
export function leastHalfWidthMin(input: { remainingMin: number; phase: StepForecast['phase'] }): number {
  const share = input.phase === 'drained' || input.phase === 'after' ? 0.15 : 0.1;
  return Math.max(6, share * Math.max(input.remainingMin, 0));
}

/**
 * A spread widened about its median to the least half-width, each side on its own; never before `notBeforeMin`.
 * @param input.values  ascending
 */
export function widened(input: {
  values: Float64Array;
  leastHalfWidthMin: number;
  notBeforeMin: number;
}): Float64Array {
  const sorted = input.values;
  const p50 = quantileSorted(sorted, 0.5);
  if (!Number.isFinite(p50)) return sorted;
  const below = p50 - quantileSorted(sorted, 0.05);
  const above = quantileSorted(sorted, 0.95) - p50;
  const stretch = (side: number): number => (side > 0 ? Math.max(1, input.leastHalfWidthMin / side) : 1);
  const n = sorted.length;
  return sorted.map((value, i) => {
    const side = value < p50 ? below : above;
    // Where the members agree to the minute there is nothing to stretch: the floor is laid out as a normal spread.
    const moved =
      side > 0.5
        ? p50 + (value - p50) * stretch(side)
        : p50 + (input.leastHalfWidthMin / 1.645) * rankNormal((i + 0.5) / n);
    return Math.max(moved, input.notBeforeMin);
  });
}

/** Standard normal value of a rank, good to 0.01: enough for laying out a floor (Tukey lambda, lambda 0.1349). */
function rankNormal(p: number): number {
  return (p ** 0.1349 - (1 - p) ** 0.1349) / 0.1975;
}

/** Twenty equally likely values of an ascending sample, for counting dots. */
export function twentyDots(sorted: ArrayLike<number>): number[] {
  return Array.from({ length: 20 }, (_, i) => quantileSorted(sorted, (i + 0.5) / 20));
}
