import { seededRandom, type Random } from '../numbers/random.ts';
import { effectiveSampleSize } from '../numbers/stats.ts';
import { equalMembers } from './bands.ts';
import { exponentials, logMixture, logRatio, type Drawn, type RunMember, type Target } from './draw.ts';
import { place, type Gaussian } from './proposal.ts';
import { DIMENSIONS } from './uncertain.ts';

const STAGES = 8; // at most; our own choice
const KEPT_SHARE = 0.5; // of members that stay effective as a stage takes in its share of the evidence, our own choice
const SWEEPS = { between: 2, last: 4 }; // over all members, our own choice
const STRIDE = { first: 0.5, least: 0.02, most: 0.9 }; // of the breadth that is walked about, our own choice
const TAKEN = { few: 0.2, many: 0.4 } as const; // shares of steps taken: shorter strides below, longer above, our own choice

/** A member on its way, and which of the first draw it came from. */
interface Walker<R> {
  readonly member: Drawn<R>;
  readonly family: number;
  /** Logarithms over the prior: of the mixture it was drawn from, of the target, and of the proposal. */
  readonly from: number;
  readonly to: number;
  readonly ratio: number;
}

export interface Rejuvenated<R> {
  readonly members: readonly Drawn<R>[];
  /** Of how many drawn on their own they are worth. */
  readonly effectiveMembers: number;
}

/**
 * Takes the evidence in by stages, each as large as half of the members can follow; between stages members that were copied
 * are moved until they differ again, about the proposal while that works and about the prior where it does not. A sequential sampler (Del Moral, Doucet and Jasra 2006, J. R. Statist. Soc. B 68:411)
 * whose moves leave proposal or prior as they are (preconditioned Crank-Nicolson, Cotter, Roberts, Stuart and White 2013, Statistical
 * Science 28:424) and are taken by Metropolis and Hastings' rule. Where even the last stage cannot take in all the evidence,
 * the rest is left out: bands then stay wider than they might be. Deterministic for a seed.
 *
 * @param input.drawn half from the prior, half from the proposal
 * @returns `count` members of equal weight
 */
export function rejuvenated<R>(input: {
  drawn: readonly Drawn<R>[];
  target: Target;
  count: number;
  seed: number;
  run: RunMember<R>;
}): Rejuvenated<R> {
  const { target, count, run } = input;
  const random = seededRandom(input.seed);
  const ratioOf = logRatio(target);
  const walker = (member: Drawn<R>, family: number): Walker<R> => {
    const ratio = ratioOf(member.row);
    return { member, family, from: logMixture(ratio), to: member.logLikelihood, ratio };
  };
  let walkers = input.drawn.map(walker);
  const strides = { proposal: STRIDE.first, prior: STRIDE.first };
  let taken = 0;
  for (let stage = 0; stage < STAGES && taken < 1; stage++) {
    const share = nextShare(walkers, taken, KEPT_SHARE * count);
    const weights = exponentials(walkers.map(({ from, to }) => (share - taken) * (to - from)));
    walkers = equalMembers({ results: walkers, weights, count, seed: input.seed + stage });
    taken = share;
    let about: 'proposal' | 'prior' = 'proposal';
    for (let sweep = taken < 1 ? SWEEPS.between : SWEEPS.last; sweep > 0; sweep--) {
      const height = ({ from, to, ratio }: Walker<R>): number =>
        from + taken * (to - from) - (about === 'proposal' ? ratio : 0);
      let steps = 0;
      walkers = walkers.map((now) => {
        const row = stepped(now.member.row, { about: target[about], stride: strides[about], random });
        const tried = walker({ row, ...run(row) }, now.family);
        if (Math.log(random.uniform()) >= height(tried) - height(now)) return now;
        steps++;
        return tried;
      });
      if (steps > TAKEN.many * count) strides[about] = Math.min(1.5 * strides[about], STRIDE.most);
      if (steps > TAKEN.few * count) continue;
      strides[about] = Math.max(0.5 * strides[about], STRIDE.least);
      about = about === 'proposal' ? 'prior' : 'proposal';
    }
  }
  return { members: walkers.map(({ member }) => member), effectiveMembers: effectiveOf(walkers) };
}

/** How much of the evidence the next stage can take in: all of it, or what leaves so many members effective. */
function nextShare(walkers: readonly Walker<unknown>[], taken: number, least: number): number {
  const effective = (share: number): number =>
    effectiveSampleSize(exponentials(walkers.map(({ from, to }) => (share - taken) * (to - from))));
  if (effective(1) >= least) return 1;
  let [low, high] = [taken, 1];
  for (let i = 0; i < 20; i++) {
    const middle = (low + high) / 2;
    if (effective(middle) >= least) low = middle;
    else high = middle;
  }
  return low;
}

function stepped(row: Float64Array, by: { about: Gaussian; stride: number; random: Random }): Float64Array {
  const { about, stride, random } = by;
  const fresh = Float64Array.from({ length: DIMENSIONS }, () => random.normal());
  place(fresh, 0, 1, about);
  const kept = Math.sqrt(1 - stride * stride);
  return fresh.map((value, d) => {
    const middle = about.mean[d] ?? 0;
    return middle + kept * ((row[d] ?? 0) - middle) + stride * (value - middle);
  });
}

/**
 * How many members drawn on their own would say as much: members of one family count for less, the more alike they still are
 * (Kish 1965, chapter 5: the design effect 1 + (family size - 1) x likeness within families).
 */
function effectiveOf(walkers: readonly Walker<unknown>[]): number {
  const families = new Map<number, Float64Array[]>();
  for (const { family, member } of walkers) families.set(family, [...(families.get(family) ?? []), member.row]);
  const groups = [...families.values()];
  const size = groups.reduce((sum, rows) => sum + rows.length ** 2, 0) / walkers.length;
  const free = walkers.length - groups.length;
  if (free === 0) return walkers.length;
  let likeness = 0;
  for (let d = 0; d < DIMENSIONS; d++) {
    const within = groups.reduce((sum, rows) => sum + squaresAbout(rows, d), 0) / free;
    const overall = squaresAbout(groups.flat(), d) / (walkers.length - 1);
    likeness += Math.min(Math.max(1 - within / overall, 0), 1) / DIMENSIONS;
  }
  return walkers.length / (1 + (size - 1) * likeness);
}

function squaresAbout(rows: readonly Float64Array[], d: number): number {
  const mean = rows.reduce((sum, row) => sum + (row[d] ?? 0), 0) / rows.length;
  return rows.reduce((sum, row) => sum + ((row[d] ?? 0) - mean) ** 2, 0);
}
