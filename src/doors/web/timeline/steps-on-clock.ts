import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { TimelineStep } from './timeline-layout.ts';

const MINUTE_MS = 60_000;

/**
 * Hangs a forecast on the wall clock: the steps of a plan as the time line draws them.
 * @param input.zeroAt what the clock shows at minute zero, milliseconds UTC
 * @returns steps in order; those the forecast does not know are left out
 */
export function stepsOnClock(input: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly zeroAt: number;
}): TimelineStep[] {
  const forecastOf = new Map(input.forecast.steps.map((step) => [step.stepId, step]));
  const atClock = (minutes: number): number => input.zeroAt + minutes * MINUTE_MS;
  return input.plan.steps.flatMap((step, index) => {
    const foreseen = forecastOf.get(step.id);
    if (foreseen === undefined) return [];
    return [
      {
        id: step.id,
        name: step.name,
        number: index + 1,
        state: foreseen.state,
        startAt: atClock(foreseen.startMin.p50),
        endAt: atClock(foreseen.endMin.p50),
        endEarlyAt: atClock(foreseen.endMin.p5),
        endLateAt: atClock(foreseen.endMin.p95),
        handsMin: step.handsMin,
      },
    ];
  });
}
