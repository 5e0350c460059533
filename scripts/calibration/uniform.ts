/** Are these ranks uniform? Pearson's chi-square on equal bins, and Kolmogorov's distance from the straight line. */
import { erfc } from '../../src/numbers/special.ts';

export const BINS = 20;

export interface Uniformity {
  readonly bins: readonly number[];
  readonly chiSquare: number;
  /** Chance of at least so uneven bins, were the ranks uniform. */
  readonly chiSquareP: number;
  /** Largest distance between the ranks' own distribution and the straight line. */
  readonly distance: number;
  readonly distanceP: number;
}

/** @param ranks each in [0, 1] */
export function uniformityOf(ranks: readonly number[]): Uniformity {
  const bins = Array.from({ length: BINS }, () => 0);
  for (const rank of ranks) {
    const bin = Math.min(Math.floor(rank * BINS), BINS - 1);
    bins[bin] = (bins[bin] ?? 0) + 1;
  }
  const each = ranks.length / BINS;
  const chiSquare = bins.reduce((sum, count) => sum + (count - each) ** 2 / each, 0);
  const sorted = [...ranks].sort((a, b) => a - b);
  const distance = sorted.reduce(
    (most, rank, i) => Math.max(most, rank - i / sorted.length, (i + 1) / sorted.length - rank),
    0,
  );
  return {
    bins,
    chiSquare,
    chiSquareP: chiSquareTail(chiSquare, BINS - 1),
    distance,
    distanceP: kolmogorovTail(distance, ranks.length),
  };
}

/** Chance of a chi-square this large or larger; Wilson and Hilferty (1931), good to a few thousandths. */
export function chiSquareTail(chiSquare: number, degrees: number): number {
  const spread = 2 / (9 * degrees);
  const z = (Math.cbrt(chiSquare / degrees) - (1 - spread)) / Math.sqrt(spread);
  return 0.5 * erfc(z / Math.SQRT2);
}

/** Chance of a largest distance this large or larger among `count` ranks; Kolmogorov's series with Stephens' (1970) correction. */
export function kolmogorovTail(distance: number, count: number): number {
  const root = Math.sqrt(count);
  const x = (root + 0.12 + 0.11 / root) * distance;
  let sum = 0;
  for (let k = 1; k <= 100; k++) sum += (k % 2 === 1 ? 2 : -2) * Math.exp(-2 * k * k * x * x);
  return Math.min(Math.max(sum, 0), 1);
}
