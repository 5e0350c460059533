import { choleskyFactor, isDiagonal, logDeterminant, lowerTimes, normalExponent } from '../numbers/linear.ts';
import { AT, DIMENSIONS, UNCERTAIN, type Beliefs, type JointBeliefs } from './uncertain.ts';

/** A normal distribution over members' rows: the prior, or where the evidence points. */
export interface Gaussian {
  readonly mean: Float64Array;
  readonly factor: Float64Array;
  readonly logDeterminant: number;
  /** True where each input is believed by itself: the factor is nought but on its diagonal. */
  readonly isApart: boolean;
}

/** What is believed before the make. */
export function priorOf(beliefs: Beliefs | JointBeliefs): Gaussian {
  if (isJoint(beliefs)) return gaussianOf(beliefs.mean.slice(), beliefs.covariance.slice());
  const mean = new Float64Array(DIMENSIONS);
  const covariance = new Float64Array(DIMENSIONS * DIMENSIONS);
  for (const name of UNCERTAIN) {
    const belief = beliefs[name] ?? { mean: 0, sd: 1 };
    mean[AT[name]] = belief.mean;
    covariance[AT[name] * DIMENSIONS + AT[name]] = belief.sd * belief.sd;
  }
  return gaussianOf(mean, covariance);
}

const isJoint = (beliefs: Beliefs | JointBeliefs): beliefs is JointBeliefs => 'covariance' in beliefs;

/** A normal distribution from its mean and covariance (which may be made a little broader in place). */
export function gaussianOf(mean: Float64Array, covariance: Float64Array): Gaussian {
  const n = DIMENSIONS;
  let factor = choleskyFactor(covariance, n);
  // Members that agree to the last digit outline a plane: a little breadth is added until it is a body again.
  for (let added = 1e-6; factor === null && added < 1; added *= 10) {
    for (let d = 0; d < n; d++) covariance[d * n + d] = (covariance[d * n + d] ?? 0) + added;
    factor = choleskyFactor(covariance, n);
  }
  if (factor === null) throw new RangeError('a covariance of members must be positive definite');
  return { mean, factor, logDeterminant: logDeterminant(factor, n), isApart: isDiagonal(factor, n) };
}

/** Turns standard normal rows into rows of this distribution, in place. */
export function place(rows: Float64Array, from: number, to: number, gaussian: Gaussian): void {
  const { mean, factor, isApart } = gaussian;
  if (isApart) {
    const sd = Float64Array.from(mean, (_, d) => factor[d * DIMENSIONS + d] ?? 1);
    for (let i = from * DIMENSIONS; i < to * DIMENSIONS; i += DIMENSIONS) {
      for (let d = 0; d < DIMENSIONS; d++) rows[i + d] = (mean[d] ?? 0) + (sd[d] ?? 1) * (rows[i + d] ?? 0);
    }
    return;
  }
  const out = new Float64Array(DIMENSIONS);
  for (let i = from; i < to; i++) {
    const row = rows.subarray(i * DIMENSIONS, (i + 1) * DIMENSIONS);
    lowerTimes(factor, row, out);
    for (let d = 0; d < DIMENSIONS; d++) row[d] = (mean[d] ?? 0) + (out[d] ?? 0);
  }
}

/** Log-density of a row, but for the constant that all share. */
export function logDensity(row: Float64Array, gaussian: Gaussian, work: { a: Float64Array; b: Float64Array }): number {
  for (let d = 0; d < DIMENSIONS; d++) work.a[d] = (row[d] ?? 0) - (gaussian.mean[d] ?? 0);
  return -0.5 * normalExponent(gaussian.factor, work.a, work.b) - gaussian.logDeterminant;
}
