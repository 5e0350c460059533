import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import { stepsOnClock } from '../timeline/steps-on-clock.ts';
import type { TimelineStep } from '../timeline/timeline-layout.ts';

/**
 * The steps as a plan draws them: a whisker only where milk or curd decide the end, and at the last end. A step that
 * the clock ends just carries its forerunner's doubt, and twenty whiskers side by side tell nothing more.
 */
export function plannedSteps(input: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly zeroAt: number;
}): TimelineStep[] {
  const decided = new Set(input.plan.steps.filter(isDecidedByMilk).map((step) => step.id));
  const last = input.plan.steps.at(-1)?.id;
  return stepsOnClock(input).map((step) =>
    decided.has(step.id) || step.id === last ? step : { ...step, endEarlyAt: step.endAt, endLateAt: step.endAt },
  );
}

const isDecidedByMilk = (step: PlannedStep): boolean =>
  step.until.of.some((until) => until.kind === 'judgement' || until.kind === 'pH' || until.kind === 'flocculation');
