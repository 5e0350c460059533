import { normalHypercube } from '../numbers/normal.ts';
import { logDensity, place, type Gaussian } from './proposal.ts';
import { DIMENSIONS } from './uncertain.ts';

/** What one member says of itself. */
export interface MemberAnswer<R> {
  readonly result: R;
  readonly logLikelihood: number;
  readonly innovations: Float64Array;
}
export type RunMember<R> = (row: Float64Array) => MemberAnswer<R>;

/** A member that has been run: its row of uncertain inputs, and what it said. */
export interface Drawn<R> extends MemberAnswer<R> {
  readonly row: Float64Array;
}

/** Rows of as many members, drawn as a Latin hypercube. */
export function rowsFrom(input: { members: number; seed: number; from: Gaussian }): Float64Array {
  const { members, from } = input;
  const rows = normalHypercube({ members, dimensions: DIMENSIONS, seed: input.seed });
  place(rows, 0, members, from);
  return rows;
}

/** One member's row among many. */
export const rowAt = (rows: Float64Array, i: number): Float64Array =>
  rows.subarray(i * DIMENSIONS, (i + 1) * DIMENSIONS);

/** Members with what they said, in the order of their rows. */
export const drawnOf = <R>(rows: Float64Array, answers: readonly MemberAnswer<R>[]): Drawn<R>[] =>
  answers.map((answer, i) => ({ row: rowAt(rows, i), ...answer }));

/** What is believed before the readings, and where the readings point. */
export interface Target {
  readonly prior: Gaussian;
  readonly proposal: Gaussian;
}

/** By how much the proposal asks for rows more than the prior does: a log-ratio of densities. */
export function logRatio({ prior, proposal }: Target): (row: Float64Array) => number {
  const work = { a: new Float64Array(DIMENSIONS), b: new Float64Array(DIMENSIONS) };
  return (row) => logDensity(row, proposal, work) - logDensity(row, prior, work);
}

/** Weights of members of which half were drawn from the prior and half from the proposal. */
export function mixtureWeights(members: readonly Drawn<unknown>[], target: Target): Float64Array {
  const ratioOf = logRatio(target);
  return truncated(exponentials(members.map(({ row, logLikelihood }) => logLikelihood - logMixture(ratioOf(row)))));
}

/**
 * Weights cut off at the square root of their number times their mean (Ionides 2008, J. Comput. Graph. Statist. 17:295): one
 * member that stands alone in a thin tail does not speak for all.
 */
function truncated(weights: Float64Array): Float64Array {
  const most = weights.reduce((sum, w) => sum + w, 0) / Math.sqrt(weights.length);
  return weights.map((w) => Math.min(w, most));
}

/** log of the even mixture - log prior, from log proposal - log prior; arranged so that no exponential overflows. */
export const logMixture = (ratio: number): number =>
  ratio > 0 ? ratio + Math.log(0.5 * Math.exp(-ratio) + 0.5) : Math.log(0.5 + 0.5 * Math.exp(ratio));

/** Weights from their logarithms, the largest 1. */
export function exponentials(logs: readonly number[]): Float64Array {
  const highest = logs.reduce((most, log) => Math.max(most, log), Number.NEGATIVE_INFINITY);
  return Float64Array.from(logs, (log) => Math.exp(log - highest));
}

/** The rows of members in one array. */
export function rowsOf(members: readonly Drawn<unknown>[]): Float64Array {
  const rows = new Float64Array(members.length * DIMENSIONS);
  members.forEach(({ row }, i) => rows.set(row, i * DIMENSIONS));
  return rows;
}
