/** Order statistics of plain and weighted samples. */

/** Quantiles that every band in the house is drawn from. */
export interface Spread {
  readonly p5: number;
  readonly p25: number;
  readonly p50: number;
  readonly p75: number;
  readonly p95: number;
}

/**
 * Quantile of an ascending sample, linear between order statistics (Hyndman & Fan 1996, type 7).
 * @param sorted ascending values, at least one
 * @param probability in [0, 1]
 */
export function quantileSorted(sorted: ArrayLike<number>, probability: number): number {
  if (sorted.length === 0) throw new RangeError('quantile needs at least one value');
  const position = probability * (sorted.length - 1);
  const below = Math.floor(position);
  const low = sorted[below] ?? Number.NaN;
  const high = sorted[Math.min(below + 1, sorted.length - 1)] ?? Number.NaN;
  // Equal neighbours are returned as they are: interpolating two infinities would give NaN.
  return low === high ? low : low + (position - below) * (high - low);
}

/** The probabilities of a `Spread`, ascending. */
export const SPREAD_AT = [0.05, 0.25, 0.5, 0.75, 0.95] as const;

/** The five quantiles of an unweighted sample. The input is not changed. */
export const spreadOf = (values: ArrayLike<number>): Spread => spreadOfSorted(Float64Array.from(values).sort());

/** The same of an ascending sample. */
export function spreadOfSorted(sorted: ArrayLike<number>): Spread {
  return {
    p5: quantileSorted(sorted, 0.05),
    p25: quantileSorted(sorted, 0.25),
    p50: quantileSorted(sorted, 0.5),
    p75: quantileSorted(sorted, 0.75),
    p95: quantileSorted(sorted, 0.95),
  };
}

/**
 * Quantiles of a weighted sample: the value at which the cumulative weight, counted at the middle of each
 * point's own weight, reaches the probability; linear between points.
 * @param values one value a member; infinities allowed (never reached)
 * @param weights non-negative, not all zero, same length
 * @param probabilities ascending, each in [0, 1]
 */
export function weightedQuantiles(
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  probabilities: readonly number[],
): number[] {
  const count = values.length;
  const order = Array.from({ length: count }, (_, i) => i).sort((a, b) => (values[a] ?? 0) - (values[b] ?? 0));
  let total = 0;
  for (let i = 0; i < count; i++) total += weights[i] ?? 0;
  const results: number[] = [];
  let next = 0;
  let before = 0;
  let previousValue = Number.NaN;
  let previousPosition = 0;
  for (const index of order) {
    const weight = (weights[index] ?? 0) / total;
    if (weight <= 0) continue;
    const value = values[index] ?? Number.NaN;
    const position = before + weight / 2;
    while (next < probabilities.length && (probabilities[next] ?? 2) <= position) {
      const p = probabilities[next] ?? 0;
      results.push(
        Number.isNaN(previousValue) || value === previousValue || !Number.isFinite(value)
          ? value
          : previousValue + ((value - previousValue) * (p - previousPosition)) / (position - previousPosition),
      );
      next++;
    }
    before += weight;
    previousValue = value;
    previousPosition = position;
  }
  while (results.length < probabilities.length) results.push(previousValue);
  return results;
}

/** The five quantiles of a weighted sample. */
export function weightedSpread(values: ArrayLike<number>, weights: ArrayLike<number>): Spread {
  const [p5 = Number.NaN, p25 = Number.NaN, p50 = Number.NaN, p75 = Number.NaN, p95 = Number.NaN] = weightedQuantiles(
    values,
    weights,
    [0.05, 0.25, 0.5, 0.75, 0.95],
  );
  return { p5, p25, p50, p75, p95 };
}

/** Kish's effective sample size (Kish 1965): (sum w)^2 / sum w^2. */
export function effectiveSampleSize(weights: ArrayLike<number>): number {
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < weights.length; i++) {
    const w = weights[i] ?? 0;
    sum += w;
    squares += w * w;
  }
  return squares === 0 ? 0 : (sum * sum) / squares;
}
