/** One make run start to end by its middle member: what a test of its cheese asks for. */
import { readFileSync } from 'node:fs';
import { typicalPlan } from '../scripts/makes/landing.ts';
import { courseOf } from '../src/forecast/course.ts';
import { groundOf, inputsOf } from '../src/forecast/inputs.ts';
import { runMember } from '../src/forecast/member.ts';
import { FIGURE_AT, type Figure, type MemberRun } from '../src/forecast/run.ts';
import { benchOf } from '../src/forecast/simulate.ts';
import { DIMENSIONS } from '../src/forecast/uncertain.ts';
import { newVat } from '../src/forecast/vat-state.ts';
import { observationsOf } from '../src/forecast/walk.ts';
import { NO_HISTORY } from '../src/make/history.ts';
import { parseMake, type Make } from '../src/make/make.ts';
import type { PlannedStep } from '../src/make/plan.ts';

export const makeOf = (id: string): Make =>
  parseMake(JSON.parse(readFileSync(new URL(`../makes/${id}.json`, import.meta.url), 'utf8')));

export interface Ran {
  readonly run: MemberRun;
  readonly figure: (name: Figure) => number;
  /** pH, minutes and so on at the end of the last step of a verb. */
  readonly at: (verb: PlannedStep['verb'], of: 'endPH' | 'endMin' | 'startMin') => number;
}

/** The middle member's make, start to end; of the make as it is, or with other settings in the steps of a verb. */
export function ran(make: Make, other: { verb?: PlannedStep['verb']; set?: PlannedStep['set'] } = {}): Ran {
  const plan = typicalPlan(make);
  const steps = plan.steps.map((step) =>
    step.verb === other.verb ? { ...step, set: { ...step.set, ...other.set } } : step,
  );
  const course = courseOf({ plan: { ...plan, steps }, history: NO_HISTORY });
  const ground = groundOf(course.plan);
  const inputs = inputsOf(ground, new Float64Array(DIMENSIONS));
  const { decisions } = benchOf(course, ground);
  const run = runMember({ course, inputs, vat: newVat(inputs), observations: observationsOf(course), decisions });
  return {
    run,
    figure: (name) => run.figures[FIGURE_AT[name]] ?? Number.NaN,
    at: (verb, of) => run[of][course.steps.findLastIndex((step) => step.verb === verb)] ?? Number.NaN,
  };
}
