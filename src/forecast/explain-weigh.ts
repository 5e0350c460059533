import { erfc } from '../numbers/special.ts';

/**
 * How likely a record is under one cause: what its members expected of each clue is taken as one joint normal distribution, and
 * the clues are taken in one after the other (assumed density filtering: Minka 2001, thesis, ch. 3, from memory). Each clue's
 * share is its likelihood given all before it, so the shares add up to the whole and each can be told in words.
 */

/** What was noted, as evidence about the number that a member expected there. */
export type Likelihood =
  /** A value with a normal error `sd`; a share of slips spread over `span`. */
  | {
      readonly kind: 'value';
      readonly value: number;
      readonly sd: number;
      readonly slip: number;
      readonly span: number;
    }
  /** The number lay between `low` and `high` (either may be infinite), each edge soft by `sd`; `floor` + `share` x that. */
  | {
      readonly kind: 'between';
      readonly low: number;
      readonly high: number;
      readonly sd: number;
      readonly floor: number;
      readonly share: number;
    };

/** Mean and covariance of what the members of one cause expect, one entry a clue. */
export interface Expected {
  readonly mean: Float64Array;
  /** Row-major, `mean.length` squared. */
  readonly covariance: Float64Array;
}

/** Members that have no number there (the quantity is not in their make) take the mean of those that have. */
export function expectedOf(members: readonly Float64Array[]): Expected {
  const count = members[0]?.length ?? 0;
  const mean = new Float64Array(count);
  const covariance = new Float64Array(count * count);
  const centred = members.map((row) => Float64Array.from(row));
  for (let k = 0; k < count; k++) {
    let sum = 0;
    let there = 0;
    for (const row of centred) {
      const value = row[k] ?? Number.NaN;
      if (!Number.isFinite(value)) continue;
      sum += value;
      there++;
    }
    mean[k] = there === 0 ? 0 : sum / there;
    for (const row of centred) row[k] = Number.isFinite(row[k] ?? Number.NaN) ? (row[k] ?? 0) - (mean[k] ?? 0) : 0;
  }
  for (const row of centred) {
    for (let k = 0; k < count; k++) {
      const x = (row[k] ?? 0) / Math.max(members.length - 1, 1);
      if (x === 0) continue;
      for (let j = 0; j <= k; j++) covariance[k * count + j] = (covariance[k * count + j] ?? 0) + x * (row[j] ?? 0);
    }
  }
  for (let k = 0; k < count; k++) {
    for (let j = 0; j < k; j++) covariance[j * count + k] = covariance[k * count + j] ?? 0;
  }
  return { mean, covariance };
}

/** One clue as it was weighed. */
export interface Weighed {
  readonly logLikelihood: number;
  /** What was expected of it, given all clues before it. */
  readonly mean: number;
  readonly sd: number;
}

/**
 * Takes in the clues in their order.
 * @param likelihoods  one for each of the first entries of `expected`; later entries (readings not taken) are carried along
 * @returns one entry a clue, and mean and sd of every entry once all clues are in
 */
export function weigh(
  expected: Expected,
  likelihoods: readonly Likelihood[],
): { readonly clues: readonly Weighed[]; readonly after: { readonly mean: Float64Array; readonly sd: Float64Array } } {
  const mean = expected.mean.slice();
  const covariance = expected.covariance.slice();
  const count = mean.length;
  const clues = likelihoods.map((likelihood, k): Weighed => {
    const m = mean[k] ?? 0;
    const v = Math.max(covariance[k * count + k] ?? 0, 0);
    const taken = likelihood.kind === 'value' ? byValue(likelihood, m, v) : byBetween(likelihood, m, v);
    if (v > LEAST_VARIANCE) take({ mean, covariance, k, shift: taken.mean - m, variance: v, left: taken.variance });
    return { logLikelihood: Math.log(taken.likelihood), mean: m, sd: Math.sqrt(v) };
  });
  const sd = Float64Array.from({ length: count }, (_, k) => Math.sqrt(Math.max(covariance[k * count + k] ?? 0, 0)));
  return { clues, after: { mean, sd } };
}

const LEAST_VARIANCE = 1e-12; // members that agree to the last digit learn nothing
const SQRT_2PI = 2.5066282746310002;
const density = (z: number): number => Math.exp(-0.5 * z * z) / SQRT_2PI;
const below = (z: number): number => 0.5 * erfc(-z / Math.SQRT2);

interface Taken {
  readonly likelihood: number;
  readonly mean: number;
  readonly variance: number;
}

/** Moments after a normal reading that may be a slip: a mixture of taking it and leaving it. */
function byValue(noted: Likelihood & { kind: 'value' }, m: number, v: number): Taken {
  const total = v + noted.sd * noted.sd;
  const z = (noted.value - m) / Math.sqrt(total);
  const fits = ((1 - noted.slip) * density(z)) / Math.sqrt(total);
  const likelihood = fits + noted.slip / noted.span;
  const share = fits / likelihood;
  const step = (v / total) * (noted.value - m);
  return {
    likelihood,
    mean: m + share * step,
    variance: (1 - share) * v + share * v * (1 - v / total) + share * (1 - share) * step * step,
  };
}

/** Moments after "somewhere between", each edge a normal threshold: closed forms of a normal times a normal integral. */
function byBetween(noted: Likelihood & { kind: 'between' }, m: number, v: number): Taken {
  const total = Math.sqrt(v + noted.sd * noted.sd);
  const low = edge((m - noted.low) / total);
  const high = edge((m - noted.high) / total);
  const likelihood = noted.floor + noted.share * Math.max(low.below - high.below, 0);
  const first = (noted.share * (v / total) * (low.density - high.density)) / likelihood;
  const bend = low.zDensity - high.zDensity;
  const second = v - (noted.share * (v / total) * (v / total) * bend) / likelihood;
  return { likelihood, mean: m + first, variance: Math.max(second - first * first, 0) };
}

function edge(z: number): { below: number; density: number; zDensity: number } {
  if (!Number.isFinite(z)) return { below: z > 0 ? 1 : 0, density: 0, zDensity: 0 };
  return { below: below(z), density: density(z), zDensity: z * density(z) };
}

/** Moves the joint distribution along with one of its entries. */
function take(input: {
  mean: Float64Array;
  covariance: Float64Array;
  k: number;
  shift: number;
  variance: number;
  left: number;
}): void {
  const { mean, covariance, k, shift, variance, left } = input;
  const count = mean.length;
  const gain = Float64Array.from({ length: count }, (_, j) => (covariance[k * count + j] ?? 0) / variance);
  for (let i = 0; i < count; i++) {
    const g = gain[i] ?? 0;
    if (g === 0) continue;
    mean[i] = (mean[i] ?? 0) + g * shift;
    for (let j = 0; j < count; j++) {
      covariance[i * count + j] = (covariance[i * count + j] ?? 0) + g * (gain[j] ?? 0) * (left - variance);
    }
  }
}
