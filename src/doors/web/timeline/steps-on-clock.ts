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
        startAt: atClock(firstFinite([foreseen.startMin.p50, foreseen.startMin.p25, foreseen.startMin.p5], 0)),
        endAt: atClock(likelyEnd(foreseen)),
        endEarlyAt: atClock(Math.min(foreseen.endMin.p5, likelyEnd(foreseen))),
        endLateAt: atClock(foreseen.endMin.p95),
        handsMin: step.handsMin,
      },
    ];
  });
}

/** Where the line draws an end that may never come: at its early quantiles, else where the step began. */
function likelyEnd({ startMin, endMin }: Forecast['steps'][number]): number {
  return firstFinite([endMin.p50, endMin.p25, endMin.p5, startMin.p50, startMin.p5], 0);
}

const firstFinite = (values: readonly number[], otherwise: number): number =>
  values.find((value) => Number.isFinite(value)) ?? otherwise;
