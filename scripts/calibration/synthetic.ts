/** Synthetic makes: a kitchen, a member of the prior as the truth, and what its maker noted up to some moment. */
import { courseOf, type Course } from '../../src/forecast/course.ts';
import { groundOf } from '../../src/forecast/inputs.ts';
import type { MemberRun } from '../../src/forecast/run.ts';
import { benchOf } from '../../src/forecast/simulate.ts';
import { NO_HISTORY, type History } from '../../src/make/history.ts';
import type { Plan } from '../../src/make/plan.ts';
import { seededRandom, type Random } from '../../src/numbers/random.ts';
import { anyPlan, anyRow } from './kitchen.ts';
import { answerOf, noteAt, noted, readAsForecast, type Ask } from './notes.ts';

export interface SyntheticMake {
  readonly plan: Plan;
  readonly history: History;
  /** What really happens, run with what was noted. */
  readonly truth: MemberRun;
}

/**
 * One make drawn from the priors. The truth is a member; each reading is drawn from what that member expects of it, with the
 * error that the likelihood states, so that truth and readings come from one and the same model and ranks must be uniform.
 * The steps were ended by another member's clock, and now is any moment: neither tells anything of the truth.
 */
export function syntheticMake(input: { seed: number; notes: number }): SyntheticMake {
  const random = seededRandom(input.seed);
  const plan = anyPlan(random);
  const ground = groundOf(plan);
  const row = anyRow(random);
  const run = (history: History, of: Float64Array): MemberRun => benchOf(courseOf({ plan, history }), ground).run(of);
  const truth = (history: History): MemberRun => run(history, row);
  const clock = run(NO_HISTORY, anyRow(random));
  const course = courseOf({ plan, history: NO_HISTORY });
  const nowMin = anyMoment(course, clock, random);
  let history: History = { ...NO_HISTORY, nowMin, steps: stepsUntil(course, clock, nowMin) };
  for (const elapsedMin of anyMinutes({ nowMin, count: input.notes, random })) {
    const before = history;
    const ask: Ask = (note) => answerOf(truth(noted(before, note)), noted(before, note), note);
    const note = noteAt({ plan, history, elapsedMin, random, ask, read: readAsForecast });
    if (note !== null) history = noted(history, note);
  }
  return { plan, history, truth: truth(history) };
}

const TRACE_GRID_MIN = 5;

/** Half of the moments fall before the curd is cut, the others anywhere up to a little after it is ready. */
export function anyMoment(course: Course, clock: MemberRun, random: Random): number {
  const cut = course.steps.find(({ verb }) => verb === 'set')?.index ?? 0;
  const ready = course.steps.findLast(({ verb }) => verb === 'restToAcid')?.index ?? 0;
  const last = random.uniform() < 0.5 ? (clock.endMin[cut] ?? 0) : (clock.leftMin[ready] ?? 0) + 20;
  return TRACE_GRID_MIN * Math.round((random.uniform() * last) / TRACE_GRID_MIN);
}

/** So many minutes before now, in order. */
export function anyMinutes(input: { nowMin: number; count: number; random: Random }): number[] {
  const { nowMin, count, random } = input;
  if (nowMin < 10) return [];
  return Array.from({ length: count }, () => Math.ceil(random.uniform() * nowMin)).sort((a, b) => a - b);
}

/** The steps that have begun by now, at a member's times. */
export function stepsUntil(course: Course, clock: MemberRun, nowMin: number): History['steps'] {
  return course.steps.flatMap(({ index, id }) => {
    const startedMin = clock.startMin[index] ?? Number.NaN;
    const endedMin = clock.leftMin[index] ?? Number.NaN;
    if (!(startedMin <= nowMin)) return [];
    return [{ stepId: id, startedMin, ...(endedMin <= nowMin ? { endedMin } : {}) }];
  });
}
