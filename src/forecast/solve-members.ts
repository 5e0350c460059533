/** Members that stay the same while settings change, so that what differs between two settings is what the settings do. */
import type { Answers } from '../make/setup.ts';
import { answersWith, type Adjustable } from '../make/adjustable.ts';
import type { History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import { planMake } from '../make/planning.ts';
import { changedUnderWay } from '../make/under-way.ts';
import { equalMembers } from './bands.ts';
import { courseOf, type Course } from './course.ts';
import { groundOf, type Ground } from './inputs.ts';
import type { MemberRun } from './run.ts';
import { benchOf, membersOf } from './simulate.ts';
import { DIMENSIONS, type Beliefs } from './uncertain.ts';

/** A make as planned and as far as it has come. */
export interface Case {
  readonly plan: Plan;
  readonly answers: Answers;
  readonly history: History;
  readonly beliefs: Beliefs;
  readonly adjustables: readonly Adjustable[];
}

/** Values by id of an adjustable. */
export type Settings = Readonly<Record<string, number>>;

/** What members did under one plan. */
export interface Tried {
  readonly course: Course;
  readonly ground: Ground;
  readonly runs: readonly MemberRun[];
}

/** The answers and the plan that settings come to; what is over already stays as it was. */
export function settled(on: Case, settings: Settings): { readonly answers: Answers; readonly plan: Plan } {
  const { plan: before, history, adjustables } = on;
  const answers = answersWith({ answers: on.answers, adjustables, settings });
  const after = planMake({ make: before.make, answers });
  if (history.steps.length === 0) return { answers, plan: after };
  return { answers, plan: changedUnderWay({ before, after, steps: history.steps, atMin: history.nowMin }) };
}

/**
 * Members of equal weight that explain what has happened so far, and a way to send the same ones through another plan.
 * @param input.members how many; the notes may leave fewer apart
 */
export function commonMembers(input: { readonly on: Case; readonly members: number; readonly seed: number }): {
  readonly asItStands: Tried;
  readonly under: (plan: Plan) => Tried;
} {
  const { on, members, seed } = input;
  const { plan, history, beliefs } = on;
  const { ensemble, course, ground } = membersOf({ plan, history, beliefs, members, seed });
  const drawn = ensemble.results.map((run, index) => ({ run, row: ensemble.rows.subarray(index * DIMENSIONS, (index + 1) * DIMENSIONS) })); // prettier-ignore
  const chosen = equalMembers({ results: drawn, weights: ensemble.weights, count: members, seed });
  const under = (other: Plan): Tried => {
    const otherCourse = courseOf({ plan: other, history });
    const otherGround = groundOf(other);
    const bench = benchOf(otherCourse, otherGround, undefined);
    return { course: otherCourse, ground: otherGround, runs: chosen.map(({ row }) => bench.run(row)) };
  };
  return { asItStands: { course, ground, runs: chosen.map(({ run }) => run) }, under };
}
