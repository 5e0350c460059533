import { choleskyFactor, choleskySolve, lowerTimes } from '../numbers/linear.ts';
import type { Drawn } from './draw.ts';
import { gaussianOf, logDensity, type Gaussian } from './proposal.ts';
import { DIMENSIONS } from './uncertain.ts';

/**
 * Where the evidence points: the row that explains prior and observations best together, and how far one may stray from it.
 * Gauss-Newton steps, shortened where they go too far (Nocedal and Wright 2006, chapter 10), on the innovations, whose slopes are taken by
 * differences; the curvature at the end gives a normal distribution (Laplace's approximation) that differs from the prior only
 * where the observations say something. It only proposes: the likelihood decides (`ensemble.ts`).
 *
 * @param input.prior  whose inputs may hang together: `u` are then its independent directions
 * @param input.first  the prior's members as they ran: the best of them is where to begin
 * @param input.innovations  of one row: distance of each observation from what the row expected, in its own standard deviations
 */
export function laplace(input: {
  prior: Gaussian;
  first: readonly Drawn<unknown>[];
  innovations: (row: Float64Array) => Float64Array;
}): Gaussian {
  const { prior, first } = input;
  const believed = believedBy(first.map(({ innovations }) => innovations));
  const rowAt = (u: Float64Array): Float64Array => {
    const row = new Float64Array(DIMENSIONS);
    lowerTimes(prior.factor, u, row);
    return row.map((value, d) => (prior.mean[d] ?? 0) + value);
  };
  const look = (u: Float64Array): Place => {
    const all = input.innovations(rowAt(u));
    const misfits = Float64Array.from(believed, (k) => bounded(all[k] ?? 0));
    return { u, misfits, cost: 0.5 * (squares(u) + squares(misfits)) };
  };
  let best = look(directions(likeliest(first, prior), prior));
  let slopes = slopesAt(best, look, ALL_INPUTS);
  // Inputs that none of the observations feel here are not asked again.
  const felt = ALL_INPUTS.filter((d) => slopes.some((slope) => Math.abs(slope[d] ?? 0) > NO_SLOPE));
  for (let round = 0; round < ROUNDS; round++) {
    const next = closer(best, straightBest(best, slopes), look);
    if (next === null) break;
    const gained = best.cost - next.cost;
    best = next;
    slopes = slopesAt(best, look, felt);
    if (gained < CLOSE_ENOUGH) break;
  }
  return gaussianOf(rowAt(best.u), covariance(slopes, prior.factor));
}

const ROUNDS = 5; // our own choice
const CLOSE_ENOUGH = 0.1; // of log-density, our own choice
const NUDGE = 0.1; // prior standard deviations: wide enough to see past the integration steps, our own choice
const NO_SLOPE = 1e-6;
const FURTHEST = 30; // an innovation beyond this says no more than this, our own choice
const SHORTEST_STEP = 0.05; // of the way, our own choice

/** Inputs in prior standard deviations, and how badly they explain prior and observations there. */
interface Place {
  readonly u: Float64Array;
  readonly misfits: Float64Array;
  readonly cost: number;
}
type Look = (u: Float64Array) => Place;

const ALL_INPUTS: readonly number[] = Array.from({ length: DIMENSIONS }, (_, d) => d);

const squares = (values: Float64Array): number => values.reduce((sum, x) => sum + x * x, 0);

const bounded = (value: number): number => Math.min(Math.max(Number.isNaN(value) ? 0 : value, -FURTHEST), FURTHEST);

/** Part of the way towards `aim`, as much as makes things better; null where nothing does. */
function closer(from: Place, aim: Float64Array, look: Look): Place | null {
  for (let share = 1; share > SHORTEST_STEP; share /= 2.5) {
    const there = look(from.u.map((value, d) => value + share * ((aim[d] ?? 0) - value)));
    if (there.cost < from.cost) return there;
  }
  return null;
}

/** How each innovation changes with each of these inputs, one row an observation. */
function slopesAt(at: Place, look: Look, inputs: readonly number[]): Float64Array[] {
  const slopes = Array.from(at.misfits, () => new Float64Array(DIMENSIONS));
  for (const d of inputs) {
    const nudged = at.u.slice();
    // Towards the middle, so that no input is asked further out than it stands.
    const nudge = (at.u[d] ?? 0) > 0 ? -NUDGE : NUDGE;
    nudged[d] = (at.u[d] ?? 0) + nudge;
    const { misfits } = look(nudged);
    slopes.forEach((slope, k) => (slope[d] = ((misfits[k] ?? 0) - (at.misfits[k] ?? 0)) / nudge));
  }
  return slopes;
}

/** I + J J', as many rows as observations. */
function evidenceMatrix(slopes: readonly Float64Array[]): Float64Array {
  const m = slopes.length;
  const matrix = new Float64Array(m * m);
  slopes.forEach((a, k) =>
    slopes.forEach((b, j) => {
      matrix[k * m + j] = (k === j ? 1 : 0) + dot(a, b);
    }),
  );
  return matrix;
}

/** The best row were the innovations straight lines: J' (I + J J')^-1 (J u - r). */
function straightBest({ u, misfits }: Place, slopes: readonly Float64Array[]): Float64Array {
  const factor = choleskyFactor(evidenceMatrix(slopes), slopes.length);
  if (factor === null) return u;
  const right = Float64Array.from(slopes, (row, k) => dot(row, u) - (misfits[k] ?? 0));
  choleskySolve(factor, right);
  return u.map((_, d) => slopes.reduce((sum, row, k) => sum + (row[d] ?? 0) * (right[k] ?? 0), 0));
}

const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, value, d) => sum + value * (b[d] ?? 0), 0);

/** L (I - J' (I + J J')^-1 J) L', L the prior's factor: the prior, less what the observations take away. */
function covariance(slopes: readonly Float64Array[], priorFactor: Float64Array): Float64Array {
  const n = DIMENSIONS;
  const matrix = new Float64Array(n * n);
  for (let d = 0; d < n; d++) matrix[d * n + d] = 1;
  const factor = choleskyFactor(evidenceMatrix(slopes), slopes.length);
  if (factor !== null) {
    const column = new Float64Array(slopes.length);
    for (let d = 0; d < n; d++) {
      slopes.forEach((row, k) => (column[k] = row[d] ?? 0));
      choleskySolve(factor, column);
      for (let e = 0; e < n; e++) {
        matrix[e * n + d] =
          (matrix[e * n + d] ?? 0) - slopes.reduce((sum, row, k) => sum + (row[e] ?? 0) * (column[k] ?? 0), 0);
      }
    }
  }
  // L M by its columns, then the same again on the transpose, which is L M L' because M is symmetric.
  return leftTimes(priorFactor, leftTimes(priorFactor, matrix));
}

/** The transpose of `factor * matrix`, for a lower factor. */
function leftTimes(factor: Float64Array, matrix: Float64Array): Float64Array {
  const n = DIMENSIONS;
  const out = new Float64Array(n * n);
  const column = new Float64Array(n);
  for (let d = 0; d < n; d++) {
    for (let e = 0; e < n; e++) column[e] = matrix[e * n + d] ?? 0;
    lowerTimes(factor, column, out.subarray(d * n, (d + 1) * n));
  }
  return out;
}

/** Where a row lies in the prior's independent directions. */
function directions(row: Float64Array, prior: Gaussian): Float64Array {
  const n = DIMENSIONS;
  const u = row.map((value, d) => value - (prior.mean[d] ?? 0));
  for (let d = 0; d < n; d++) {
    for (let e = 0; e < d; e++) u[d] = (u[d] ?? 0) - (prior.factor[d * n + e] ?? 0) * (u[e] ?? 0);
    u[d] = (u[d] ?? 0) / (prior.factor[d * n + d] ?? 1);
  }
  return u;
}

/** The row that explains the observations and is likely in itself. */
function likeliest(members: readonly Drawn<unknown>[], prior: Gaussian): Float64Array {
  const work = { a: new Float64Array(DIMENSIONS), b: new Float64Array(DIMENSIONS) };
  let best = { row: prior.mean, height: Number.NEGATIVE_INFINITY };
  for (const { row, logLikelihood } of members) {
    const height = logLikelihood + logDensity(row, prior, work);
    if (height > best.height) best = { row, height };
  }
  return best.row;
}

/** An observation that hardly any member can explain is left to the likelihood, which has a floor for slips. Our own choice. */
const BELIEVED_SPREADS = 4;

/** Observations that all members have something to say of, and that are not far outside what they say. */
function believedBy(all: readonly Float64Array[]): number[] {
  const count = all[0]?.length ?? 0;
  const used: number[] = [];
  for (let k = 0; k < count; k++) {
    const values = all.map((one) => one[k] ?? Number.NaN);
    if (values.some((value) => !Number.isFinite(value))) continue;
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
    if (Math.abs(mean) < BELIEVED_SPREADS * Math.sqrt(variance + 1)) used.push(k);
  }
  return used;
}
