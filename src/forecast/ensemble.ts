import { normalHypercube } from '../numbers/normal.ts';
import { effectiveSampleSize } from '../numbers/stats.ts';
import { AT, DIMENSIONS, UNCERTAIN, type Beliefs } from './uncertain.ts';

/** Members with their weights; rows are uncertain inputs in standard units. */
export interface Ensemble<R> {
  readonly rows: Float64Array;
  readonly results: readonly R[];
  readonly weights: Float64Array;
  readonly effectiveMembers: number;
}

/** Below this share of effective members the proposal is drawn again nearer to what was observed. */
const ENOUGH_SHARE = 0.35; // our own choice
const ROUNDS = 4; // our own choice; the last round stands whatever its share
const PRIOR_SHARE = 0.2; // share drawn from the prior in every round, so that no region is lost for good (our own choice)
const WIDEN = 1.25; // proposals are wider than the fit, or weights grow without bound (our own choice)
const LEAST_SD = 0.12; // a proposal never collapses to a point (our own choice)

interface Gaussian {
  readonly mean: Float64Array;
  readonly sd: Float64Array;
}

/**
 * Draws members, runs each, and weighs them by how well they explain what was observed. Where few explain it, the
 * proposal is fitted to those that do and drawn anew (adaptive importance sampling, Cappe et al. 2004; defensive prior
 * share after Hesterberg 1995). Deterministic for a seed.
 *
 * @param input.run one member: its row in, its result and log-likelihood out
 */
export function runEnsemble<R>(input: {
  members: number;
  seed: number;
  beliefs: Beliefs;
  run: (row: Float64Array) => { result: R; logLikelihood: number };
}): Ensemble<R> {
  const prior = priorOf(input.beliefs);
  let proposal: Gaussian | null = null;
  for (let round = 1; ; round++) {
    const drawn = drawRows(input.members, input.seed + 7919 * (round - 1), prior, proposal);
    const results: R[] = [];
    const logWeights = new Float64Array(input.members);
    for (let i = 0; i < input.members; i++) {
      const row = drawn.subarray(i * DIMENSIONS, (i + 1) * DIMENSIONS);
      const { result, logLikelihood } = input.run(row);
      results.push(result);
      logWeights[i] = logLikelihood + correction(row, prior, proposal);
    }
    const weights = normalised(logWeights);
    const effectiveMembers = effectiveSampleSize(weights);
    if (effectiveMembers >= ENOUGH_SHARE * input.members || round === ROUNDS) {
      return { rows: drawn, results, weights, effectiveMembers };
    }
    proposal = fitted(drawn, weights, prior);
  }
}

function priorOf(beliefs: Beliefs): Gaussian {
  const mean = new Float64Array(DIMENSIONS);
  const sd = new Float64Array(DIMENSIONS).fill(1);
  for (const name of UNCERTAIN) {
    const belief = beliefs[name];
    if (belief === undefined) continue;
    mean[AT[name]] = belief.mean;
    sd[AT[name]] = belief.sd;
  }
  return { mean, sd };
}

function drawRows(members: number, seed: number, prior: Gaussian, proposal: Gaussian | null): Float64Array {
  const rows = normalHypercube({ members, dimensions: DIMENSIONS, seed });
  const fromPrior = proposal === null ? members : Math.round(PRIOR_SHARE * members);
  for (let i = 0; i < members; i++) {
    const from = i < fromPrior || proposal === null ? prior : proposal;
    for (let d = 0; d < DIMENSIONS; d++) {
      const at = i * DIMENSIONS + d;
      rows[at] = (from.mean[d] ?? 0) + (from.sd[d] ?? 1) * (rows[at] ?? 0);
    }
  }
  return rows;
}

/** log prior - log proposal of one row; the proposal is the mixture that the rows were drawn from. */
function correction(row: Float64Array, prior: Gaussian, proposal: Gaussian | null): number {
  if (proposal === null) return 0;
  const ratio = logDensity(row, proposal) - logDensity(row, prior);
  // log p - log(share p + (1 - share) q), arranged so that neither exponential overflows.
  return ratio > 0
    ? -ratio - Math.log(PRIOR_SHARE * Math.exp(-ratio) + 1 - PRIOR_SHARE)
    : -Math.log(PRIOR_SHARE + (1 - PRIOR_SHARE) * Math.exp(ratio));
}

function logDensity(row: Float64Array, of: Gaussian): number {
  let sum = 0;
  for (let d = 0; d < DIMENSIONS; d++) {
    const sd = of.sd[d] ?? 1;
    const z = ((row[d] ?? 0) - (of.mean[d] ?? 0)) / sd;
    sum -= 0.5 * z * z + Math.log(sd);
  }
  return sum;
}

function normalised(logWeights: Float64Array): Float64Array {
  let highest = Number.NEGATIVE_INFINITY;
  for (const w of logWeights) if (w > highest) highest = w;
  const weights = new Float64Array(logWeights.length);
  // No member explains the record at all: all count alike, and the caller's surprises say so.
  if (!Number.isFinite(highest)) return weights.fill(1);
  for (let i = 0; i < weights.length; i++) weights[i] = Math.exp((logWeights[i] ?? 0) - highest);
  return weights;
}

function fitted(rows: Float64Array, weights: Float64Array, prior: Gaussian): Gaussian {
  const mean = new Float64Array(DIMENSIONS);
  const sd = new Float64Array(DIMENSIONS);
  let total = 0;
  for (const w of weights) total += w;
  for (let d = 0; d < DIMENSIONS; d++) {
    let first = 0;
    let second = 0;
    for (let i = 0; i < weights.length; i++) {
      const x = rows[i * DIMENSIONS + d] ?? 0;
      const w = (weights[i] ?? 0) / total;
      first += w * x;
      second += w * x * x;
    }
    mean[d] = first;
    const spread = Math.sqrt(Math.max(second - first * first, 0)) * WIDEN;
    sd[d] = Math.min(Math.max(spread, LEAST_SD), prior.sd[d] ?? 1);
  }
  return { mean, sd };
}
