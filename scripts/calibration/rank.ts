/** Where the truth lies among the members of a forecast, and whether the bands shown hold it. */
import { courseOf } from '../../src/forecast/course.ts';
import type { Ensemble } from '../../src/forecast/ensemble.ts';
import type { MemberRun } from '../../src/forecast/run.ts';
import { membersOf, told } from '../../src/forecast/simulate.ts';
import type { Random } from '../../src/numbers/random.ts';
import { QUANTITIES } from './quantities.ts';
import type { SyntheticMake } from './synthetic.ts';

export interface Ranked {
  readonly quantity: string;
  /** Share of the members, by weight, below the truth: uniform between 0 and 1 where the bands are honest. */
  readonly rank: number;
  /** Whether the shown 90 % band, floors and all, holds the truth. */
  readonly isShown: boolean;
  /** Width of the shown band. */
  readonly width: number;
  readonly notes: number;
  readonly method: Ensemble<MemberRun>['method'];
}

export interface RankedMake {
  readonly ranked: readonly Ranked[];
  readonly effectiveMembers: number;
  readonly method: Ensemble<MemberRun>['method'];
}

/** One make's forecast, held against its truth. Ties (a time already reached) are broken by chance. */
export function rankedMake(input: { make: SyntheticMake; members: number; seed: number; random: Random }): RankedMake {
  const { make, random } = input;
  const { plan, history, truth } = make;
  const group = membersOf({ plan, history, members: input.members, seed: input.seed });
  const forecast = told(group);
  const course = courseOf({ plan, history });
  const { method, effectiveMembers } = group.ensemble;
  const notes = history.readings.length + history.judgements.length;
  const ranked = QUANTITIES.flatMap(({ id, of, shown }) => {
    const value = of(truth, course);
    const { p5, p95 } = shown(forecast, course);
    if (Number.isNaN(value) || Number.isNaN(p5)) return [];
    const rank = rankOf({ value, ensemble: group.ensemble, of: (run) => of(run, course), random });
    const isShown = value >= p5 - CLOSE && value <= p95 + CLOSE;
    return [{ quantity: id, rank, isShown, width: p95 - p5, notes, method }];
  });
  return { ranked, effectiveMembers, method };
}

const CLOSE = 1e-9; // a time that has come is now, on both sides

function rankOf(input: {
  value: number;
  ensemble: Ensemble<MemberRun>;
  of: (run: MemberRun) => number;
  random: Random;
}): number {
  const { value, ensemble, of, random } = input;
  let [below, equal, total] = [0, 0, 0];
  ensemble.results.forEach((run, i) => {
    const weight = ensemble.weights[i] ?? 0;
    const theirs = of(run);
    if (Number.isNaN(theirs)) return;
    total += weight;
    if (theirs < value - CLOSE) below += weight;
    else if (theirs <= value + CLOSE || theirs === value) equal += weight;
  });
  return (below + random.uniform() * equal) / total;
}
