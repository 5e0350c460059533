import type { History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import { equalMembers } from './bands.ts';
import { courseOf } from './course.ts';
import { groundOf } from './inputs.ts';
import type { MemberRun } from './run.ts';
import { benchOf, type Members } from './simulate.ts';
import { DIMENSIONS } from './uncertain.ts';

/**
 * The same members under another plan from now on or with something done to the vat: common random numbers, so that what
 * differs between two choices is the choice. What has been noted says the same of each member under both, because neither
 * changes what was, so this is what `simulate` finds for the changed plan with the same seed.
 *
 * @param base  members as the make stands
 * @param input.count  how many of them, each as often as its weight says; as many as the base has where left out
 */
export function continued(base: Members, input: { plan: Plan; history: History; count?: number }): Members {
  const course = courseOf(input);
  const ground = groundOf(input.plan);
  const bench = benchOf(course, ground, undefined);
  const { rows } = base.ensemble;
  const known = new Map<number, MemberRun>();
  return evenly({ ...base, course, ground }, input.count ?? base.members, (index) => {
    const run = known.get(index) ?? bench.run(rows.subarray(index * DIMENSIONS, (index + 1) * DIMENSIONS));
    known.set(index, run);
    return run;
  });
}

/** So many of the members as they stand, the same ones that `continued` takes for that count. */
export function fewOf(base: Members, count: number): Members {
  const { results } = base.ensemble;
  return evenly(base, count, (index) => {
    const run = results[index];
    if (run === undefined) throw new RangeError(`no member ${index}`);
    return run;
  });
}

/** Members of equal weight, drawn as the forecast draws those that it tells of. */
function evenly(base: Members, count: number, runOf: (index: number) => MemberRun): Members {
  const { results, weights } = base.ensemble;
  const drawn = equalMembers({ results: results.map((_, index) => index), weights, count, seed: base.seed });
  const ensemble = { ...base.ensemble, results: drawn.map(runOf), weights: new Float64Array(drawn.length).fill(1) };
  return { ...base, members: count, ensemble };
}
