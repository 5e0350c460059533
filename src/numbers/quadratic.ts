/** Quadratic response surfaces: one least-squares fit of many outputs over the same few points (Box & Wilson 1951). */
import { choleskyFactor } from './linear.ts';

/** Where to look: the middle, both ends of every axis, and two opposite corners of every pair, in coordinates -1 to 1. */
export function designPoints(dimensions: number): number[][] {
  const middle = Array.from({ length: dimensions }, () => 0);
  const at = (...moves: readonly (readonly [axis: number, to: number])[]): number[] =>
    middle.map((value, axis) => moves.find(([moved]) => moved === axis)?.[1] ?? value);
  const axes = Array.from({ length: dimensions }, (_, axis) => axis);
  const ends = axes.flatMap((axis) => (dimensions === 1 ? [-1, -0.5, 0.5, 1] : [-1, 1]).map((to) => at([axis, to])));
  const pairs = axes.flatMap((i) => axes.slice(i + 1).flatMap((j) => [at([i, 0.8], [j, 0.8]), at([i, -0.8], [j, -0.8])])); // prettier-ignore
  return [middle, ...ends, ...pairs];
}

/** Terms of a quadratic in so many coordinates: 1, x, x^2 and every product. */
export const termCount = (dimensions: number): number => 1 + 2 * dimensions + (dimensions * (dimensions - 1)) / 2;

/** Writes the terms at a point. */
export function termsAt(point: ArrayLike<number>, out: Float64Array): void {
  const n = point.length;
  let next = 0;
  out[next++] = 1;
  for (let i = 0; i < n; i++) out[next++] = point[i] ?? 0;
  for (let i = 0; i < n; i++) for (let j = i; j < n; j++) out[next++] = (point[i] ?? 0) * (point[j] ?? 0);
}

const RIDGE = 1e-7; // keeps the fit defined where points are fewer than terms; far below any noise of the outputs

/**
 * Coefficients of every output's quadratic.
 * @param input.points  one row a point
 * @param input.values  one array a point: the outputs there, as many at each
 * @returns outputs x terms, row-major, in the order of `termsAt`
 * @throws RangeError where points and values are not as many
 */
export function quadraticFit(input: {
  readonly points: readonly (readonly number[])[];
  readonly values: readonly Float64Array[];
}): Float64Array {
  const { points, values } = input;
  const dimensions = points[0]?.length ?? 0;
  const outputs = values[0]?.length ?? 0;
  if (points.length !== values.length) throw new RangeError('a fit needs as many values as points');
  const terms = termCount(dimensions);
  const rows = points.map((point) => {
    const row = new Float64Array(terms);
    termsAt(point, row);
    return row;
  });
  const normal = new Float64Array(terms * terms);
  for (const row of rows)
    for (let i = 0; i < terms; i++)
      for (let j = 0; j <= i; j++) normal[i * terms + j] = (normal[i * terms + j] ?? 0) + (row[i] ?? 0) * (row[j] ?? 0);
  for (let i = 0; i < terms; i++) normal[i * terms + i] = (normal[i * terms + i] ?? 0) + RIDGE;
  const factor = choleskyFactor(normal, terms);
  if (factor === null) throw new RangeError('the points of a fit must be finite');
  // What each point adds to each coefficient, then one product for all outputs.
  const shares = rows.map((row) => solved(factor, row));
  const coefficients = new Float64Array(outputs * terms);
  for (const [p, share] of shares.entries()) {
    const value = values[p] ?? new Float64Array(outputs);
    for (let o = 0; o < outputs; o++)
      for (let t = 0; t < terms; t++)
        coefficients[o * terms + t] = (coefficients[o * terms + t] ?? 0) + (share[t] ?? 0) * (value[o] ?? 0);
  }
  return coefficients;
}

/** The solution of `factor factorᵀ x = right`. */
function solved(factor: Float64Array, right: Float64Array): Float64Array {
  const n = right.length;
  const x = Float64Array.from(right);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i] = (x[i] ?? 0) - (factor[i * n + k] ?? 0) * (x[k] ?? 0);
    x[i] = (x[i] ?? 0) / (factor[i * n + i] ?? 1);
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i] = (x[i] ?? 0) - (factor[k * n + i] ?? 0) * (x[k] ?? 0);
    x[i] = (x[i] ?? 0) / (factor[i * n + i] ?? 1);
  }
  return x;
}
