import { effectiveSampleSize } from '../numbers/stats.ts';
import {
  drawnOf,
  exponentials,
  mixtureWeights,
  rowAt,
  rowsFrom,
  rowsOf,
  type Drawn,
  type MemberAnswer,
  type RunMember,
} from './draw.ts';
import { laplace } from './laplace.ts';
import { priorOf } from './proposal.ts';
import { rejuvenated } from './rejuvenate.ts';
import { DIMENSIONS, type Beliefs, type JointBeliefs } from './uncertain.ts';

/** Members with their weights; rows are uncertain inputs in standard units. */
export interface Ensemble<R> {
  readonly rows: Float64Array;
  readonly results: readonly R[];
  readonly weights: Float64Array;
  /** Kish's effective number; of moved members, with what copies of one draw still have in common taken off. */
  readonly effectiveMembers: number;
  /** The prior's own members, run with the same notes but not yet weighed by them. */
  readonly fromPrior: readonly R[];
  /** How the members came to explain what was observed. */
  readonly method: 'prior' | 'weighed' | 'redrawn' | 'moved';
}

const ENOUGH_SHARE = 0.35; // of effective members, for staying with the prior's own draw; our own choice
const GOOD_SHARE = 0.15; // of effective members, for trusting redrawn members' weights; our own choice

export interface EnsembleInput<R> {
  readonly members: number;
  readonly seed: number;
  readonly beliefs: Beliefs | JointBeliefs;
  /** One member: its row in, its result, log-likelihood and innovations out. */
  readonly run: RunMember<R>;
  /** Many members at once, where that is quicker than one by one. */
  readonly runAll?: (rows: Float64Array) => readonly MemberAnswer<R>[];
}

/** Hands out rows of members to be run, all at once, and takes what they said back in the same order. */
export type EnsembleSteps<R> = Generator<Float64Array, Ensemble<R>, readonly MemberAnswer<R>[]>;

/** Draws members, runs each, and weighs them by how well they explain what was observed: `ensembleSteps`, all run here. */
export function runEnsemble<R>(input: EnsembleInput<R>): Ensemble<R> {
  const { run, runAll = (rows) => runEach(rows, run) } = input;
  const steps = ensembleSteps(input);
  let step = steps.next();
  while (step.done !== true) step = steps.next(runAll(step.value));
  return step.value;
}

/** Runs every row, one after the other. */
const runEach = <R>(rows: Float64Array, run: RunMember<R>): MemberAnswer<R>[] =>
  Array.from({ length: rows.length / DIMENSIONS }, (_, i) => run(rowAt(rows, i)));

/**
 * Draws members, has each run, and weighs them by how well they explain what was observed. Where too few of the prior's members
 * explain it, as many again are drawn from a normal distribution about the best explanation (`laplace.ts`), and both draws are
 * weighed exactly, as one sample from the mixture of the two (Veach and Guibas 1995): what the second draw does not think of,
 * the first still covers. Where few are effective even then, they are moved until they differ again (`rejuvenate.ts`): never
 * a collapse in silence. Deterministic for a seed, wherever the rows are run.
 */
export function* ensembleSteps<R>(input: EnsembleInput<R>): EnsembleSteps<R> {
  const { members, seed, run } = input;
  const prior = priorOf(input.beliefs);
  const firstRows = rowsFrom({ members, seed, from: prior });
  const first = drawnOf(firstRows, yield firstRows);
  const fromPrior = first.map(({ result }) => result);
  const weights = exponentials(first.map(({ logLikelihood }) => logLikelihood));
  const effectiveMembers = effectiveSampleSize(weights);
  if (effectiveMembers >= ENOUGH_SHARE * members) {
    const method = effectiveMembers > 0.999 * members ? 'prior' : 'weighed';
    return { ...told(first, weights), effectiveMembers, fromPrior, method };
  }
  const proposal = laplace({ prior, first, innovations: (row) => run(row).innovations });
  const target = { prior, proposal };
  const secondRows = rowsFrom({ members, seed: seed + 7919, from: proposal });
  const both = [...first, ...drawnOf(secondRows, yield secondRows)];
  const bothWeights = mixtureWeights(both, target);
  const bothEffective = effectiveSampleSize(bothWeights);
  if (bothEffective >= GOOD_SHARE * members) {
    return { ...told(both, bothWeights), effectiveMembers: bothEffective, fromPrior, method: 'redrawn' };
  }
  const moved = rejuvenated({ drawn: both, target, count: members, seed: seed + 303, run });
  return {
    ...told(moved.members, new Float64Array(members).fill(1)),
    effectiveMembers: moved.effectiveMembers,
    fromPrior,
    method: 'moved',
  };
}

function told<R>(drawn: readonly Drawn<R>[], weights: Float64Array): Pick<Ensemble<R>, 'rows' | 'results' | 'weights'> {
  return { rows: rowsOf(drawn), results: drawn.map(({ result }) => result), weights };
}
