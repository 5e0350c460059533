import type { History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import { courseOf } from './course.ts';
import { groundOf } from './inputs.ts';
import type { MemberRun } from './run.ts';
import { benchOf, type Members } from './simulate.ts';
import { DIMENSIONS } from './uncertain.ts';

/**
 * The same members, with the same weights, under another plan from now on or with something done to the vat: common random
 * numbers, so that what differs between two choices is the choice. What has been noted says the same of each member under
 * both, because neither changes what was, so this is what `simulate` would find for the changed plan with the same seed.
 *
 * @param base  members as the make stands
 * @param input.most  how many of them, from the first; all where left out
 */
export function continued(base: Members, input: { plan: Plan; history: History; most?: number }): Members {
  const { rows, weights, results, fromPrior } = base.ensemble;
  const course = courseOf(input);
  const ground = groundOf(input.plan);
  const bench = benchOf(course, ground, undefined);
  const count = Math.min(input.most ?? results.length, results.length);
  const run = (index: number): MemberRun => bench.run(rows.subarray(index * DIMENSIONS, (index + 1) * DIMENSIONS));
  const again = Array.from({ length: count }, (_, index) => run(index));
  const ensemble = {
    ...base.ensemble,
    results: again,
    weights: weights.slice(0, count),
    fromPrior: fromPrior === results ? again : fromPrior,
  };
  return { ...base, course, ground, ensemble };
}
