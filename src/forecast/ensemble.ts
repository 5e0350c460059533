import { normalHypercube } from '../numbers/normal.ts';
import { effectiveSampleSize } from '../numbers/stats.ts';
import { fittedTo, logDensity, place, priorOf, type Gaussian } from './proposal.ts';
import { smoothedRows } from './smoother.ts';
import { DIMENSIONS, type Beliefs, type JointBeliefs } from './uncertain.ts';

/** Members with their weights; rows are uncertain inputs in standard units. */
export interface Ensemble<R> {
  readonly rows: Float64Array;
  readonly results: readonly R[];
  readonly weights: Float64Array;
  readonly effectiveMembers: number;
  /** The prior's own members, run with the same notes but not yet weighed by them. */
  readonly fromPrior: readonly R[];
  /** How the members came to explain what was observed. */
  readonly method: 'prior' | 'weighed' | 'redrawn' | 'smoothed';
}

/** What one member says of itself. */
export interface MemberAnswer<R> {
  readonly result: R;
  readonly logLikelihood: number;
  readonly innovations: Float64Array;
}

const ENOUGH_SHARE = 0.35; // of effective members, for staying with the prior's own draw; our own choice
const GOOD_SHARE = 0.2; // of effective members, for trusting redrawn members' weights; our own choice
const SMOOTHER_MEMBERS = 240; // our own choice: enough for the correlations of some twenty observations
const PRIOR_SHARE = 0.1; // drawn from the prior when redrawing, so that no region is lost for good (our own choice)

/**
 * Draws members, runs each, and weighs them by how well they explain what was observed. Where too few of the prior's members
 * explain it, an ensemble smoother finds where the evidence points, and members are drawn from there and weighed exactly
 * (importance sampling with a defensive share of the prior, Hesterberg 1995). Where many sharp readings leave too few effective
 * even then, the smoothed members stand as they are, all of one weight: never a collapse in silence. Deterministic for a seed.
 *
 * @param input.run one member: its row in, its result, log-likelihood and innovations out
 */
export function runEnsemble<R>(input: {
  members: number;
  seed: number;
  beliefs: Beliefs | JointBeliefs;
  run: (row: Float64Array) => MemberAnswer<R>;
}): Ensemble<R> {
  const { members, seed, run } = input;
  const prior = priorOf(input.beliefs);
  const first = weighed({ members, seed, prior, proposal: null, run });
  if (first.effectiveMembers >= ENOUGH_SHARE * members) {
    return {
      ...first,
      fromPrior: first.results,
      method: first.effectiveMembers > 0.999 * members ? 'prior' : 'weighed',
    };
  }
  const count = Math.min(members, SMOOTHER_MEMBERS);
  const rows = smoothedRows({ members: count, seed, prior, innovations: (row) => run(row).innovations });
  const redrawn = weighed({ members, seed: seed + 7919, prior, proposal: fittedTo(rows), run });
  if (redrawn.effectiveMembers >= GOOD_SHARE * members)
    return { ...redrawn, fromPrior: first.results, method: 'redrawn' };
  const results = Array.from(
    { length: count },
    (_, i) => run(rows.subarray(i * DIMENSIONS, (i + 1) * DIMENSIONS)).result,
  );
  return {
    rows,
    results,
    weights: new Float64Array(count).fill(1),
    effectiveMembers: count,
    fromPrior: first.results,
    method: 'smoothed',
  };
}

/** One draw from the proposal (or the prior), run and weighed. */
function weighed<R>(input: {
  members: number;
  seed: number;
  prior: Gaussian;
  proposal: Gaussian | null;
  run: (row: Float64Array) => MemberAnswer<R>;
}): Omit<Ensemble<R>, 'method' | 'fromPrior'> {
  const { members, prior, proposal } = input;
  const work = { a: new Float64Array(DIMENSIONS), b: new Float64Array(DIMENSIONS) };
  const rows = normalHypercube({ members, dimensions: DIMENSIONS, seed: input.seed });
  const fromPrior = proposal === null ? members : Math.round(PRIOR_SHARE * members);
  place(rows, 0, fromPrior, prior);
  if (proposal !== null) place(rows, fromPrior, members, proposal);
  const results: R[] = [];
  const base = new Float64Array(members);
  const evidence = new Float64Array(members);
  for (let i = 0; i < members; i++) {
    const row = rows.subarray(i * DIMENSIONS, (i + 1) * DIMENSIONS);
    const answer = input.run(row);
    results.push(answer.result);
    evidence[i] = answer.logLikelihood;
    if (proposal !== null) base[i] = correction(logDensity(row, proposal, work) - logDensity(row, prior, work));
  }
  const logs = base.map((value, i) => value + (evidence[i] ?? 0));
  const highest = logs.reduce((most, log) => Math.max(most, log), Number.NEGATIVE_INFINITY);
  const weights = logs.map((log) => Math.exp(log - highest));
  return { rows, results, weights, effectiveMembers: effectiveSampleSize(weights) };
}

/** log prior - log of the mixture that the rows were drawn from, given log proposal - log prior; arranged so that neither exponential overflows. */
function correction(ratio: number): number {
  return ratio > 0
    ? -ratio - Math.log(PRIOR_SHARE * Math.exp(-ratio) + 1 - PRIOR_SHARE)
    : -Math.log(PRIOR_SHARE + (1 - PRIOR_SHARE) * Math.exp(ratio));
}
