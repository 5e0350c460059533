/** What each member comes to in the quantities of a question. */
import { quantileSorted } from '../numbers/stats.ts';
import { leastHalfWidthMin, widened } from './bands.ts';
import type { Course } from './course.ts';
import { dayEndStep } from './day-end.ts';
import type { StepForecast } from './forecast.ts';
import type { Wanted } from './question.ts';
import { FIGURE_AT, type MemberRun } from './run.ts';

/** One value a member; a quantity that a member never reaches is NaN and meets no aim. */
export function aimValues(input: {
  readonly course: Course;
  readonly runs: readonly MemberRun[];
  readonly wanted: Pick<Wanted, 'quantity' | 'stepId'>;
}): Float64Array {
  const { course, runs, wanted } = input;
  const { quantity } = wanted;
  if (quantity === 'endMin') return dayEnds(course, runs);
  if (quantity !== 'pH') return Float64Array.from(runs, (run) => run.figures[FIGURE_AT[quantity]] ?? Number.NaN);
  const index = pHStep(course, wanted.stepId);
  return Float64Array.from(runs, (run) => run.endPH[index] ?? Number.NaN);
}

/** Place of the step at whose end a pH is meant; -1 where there is none. */
export function pHStep(course: Pick<Course, 'plan' | 'steps'>, stepId: string | undefined): number {
  const meant = stepId ?? course.plan.make.aims.find((aim) => aim.quantity === 'pH')?.moment;
  return course.steps.findIndex((step) => step.id === meant);
}

const PHASES = ['milk', 'curd-in-whey', 'drained', 'after'] as const satisfies readonly StepForecast['phase'][];

/** Ends of the day's last step that wants hands, as wide as the floors on times to come ask (`bands.ts`). */
function dayEnds(course: Course, runs: readonly MemberRun[]): Float64Array {
  const length = (index: number): number =>
    quantileSorted(
      runs.map((run) => (run.endMin[index] ?? 0) - (run.startMin[index] ?? 0)).sort((a, b) => a - b),
      0.5,
    );
  const at = new Map(course.steps.map((step) => [step.id, step.index]));
  const last = dayEndStep({ steps: course.plan.steps, lengthMin: (id) => length(at.get(id) ?? 0) });
  const index = at.get(last ?? '') ?? course.steps.length - 1;
  const ends = Float64Array.from(runs, (run) => run.endMin[index] ?? Number.NaN);
  const order = Array.from(ends.keys()).sort((a, b) => (ends[a] ?? 0) - (ends[b] ?? 0));
  const sorted = Float64Array.from(order, (member) => ends[member] ?? Number.NaN);
  const { mayEndFromMin } = course;
  const phase = PHASES[runs[0]?.phase[index] ?? 3] ?? 'after';
  const least = leastHalfWidthMin({ remainingMin: quantileSorted(sorted, 0.5) - mayEndFromMin, phase });
  const wide = widened({ values: sorted, leastHalfWidthMin: least, notBeforeMin: mayEndFromMin });
  for (const [rank, member] of order.entries()) ends[member] = wide[rank] ?? Number.NaN;
  return ends;
}

/** True where a value is inside what is wanted; NaN never is. */
export const isMet = (wanted: Pick<Wanted, 'low' | 'high'>, value: number): boolean =>
  value >= wanted.low && value <= wanted.high;
