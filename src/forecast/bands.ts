import { positionsOf } from '../numbers/positions.ts';
import { newSpreader } from '../numbers/sort.ts';
import { quantileSorted, type Spread } from '../numbers/stats.ts';
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

/** Bands over time of every traced quantity, cut where the last member has ended. */
export function traceBands(runs: readonly MemberRun[]): {
  gridMin: number[];
  bands: Record<BandQuantity, Band>;
} {
  const at = positionsOf(TRACED);
  const moments = new Float64Array(TRACE_POINTS * runs.length);
  const spread = newSpreader(runs.length);
  const drawn = (quantity: BandQuantity): (Spread | null)[] => spreadsOverTime(runs, at[quantity], moments, spread);
  const spreads: Record<BandQuantity, (Spread | null)[]> = {
    pH: drawn('pH'),
    wheyPH: drawn('wheyPH'),
    temperatureC: drawn('temperatureC'),
    curdMoisturePercent: drawn('curdMoisturePercent'),
    curdKg: drawn('curdKg'),
    saltPercent: drawn('saltPercent'),
  };
  const points = Math.max(1, ...Object.values(spreads).map((list) => list.length));
  const band = (quantity: BandQuantity): Band => bandOf(spreads[quantity], points);
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

/**
 * One quantity's spread at each traced point up to the last that any member has; null where too few have one. Members are
 * read through once, each from start to end, and laid out by moment in `moments`: that is how memory likes it.
 */
function spreadsOverTime(
  runs: readonly MemberRun[],
  quantityIndex: number,
  moments: Float64Array,
  spread: (sample: Float64Array) => Spread,
): (Spread | null)[] {
  const counts = new Int32Array(TRACE_POINTS);
  let points = 0;
  for (const { trace } of runs) {
    for (let p = 0; p < TRACE_POINTS; p++) {
      const value = trace[quantityIndex * TRACE_POINTS + p] ?? Number.NaN;
      if (Number.isNaN(value)) continue;
      const count = counts[p] ?? 0;
      moments[p * runs.length + count] = value;
      counts[p] = count + 1;
      if (p >= points) points = p + 1;
    }
  }
  return Array.from({ length: points }, (_, p) => {
    const count = counts[p] ?? 0;
    if (count === 0 || count < LEAST_SHARE * runs.length) return null;
    return spread(moments.subarray(p * runs.length, p * runs.length + count));
  });
}

function bandOf(spreads: readonly (Spread | null)[], points: number): Band {
  const line = (probability: keyof Spread): number[] =>
    Array.from({ length: points }, (_, p) => spreads[p]?.[probability] ?? Number.NaN);
  return { p5: line('p5'), p25: line('p25'), p50: line('p50'), p75: line('p75'), p95: line('p95') };
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
