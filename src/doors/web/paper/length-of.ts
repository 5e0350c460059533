import type { Forecast } from '../../../forecast/forecast.ts';

/** How long each step most likely lasts, by its id; undefined where it is not foreseen. */
export function simulatedLength(forecast: Forecast): (stepId: string) => number | undefined {
  const steps = new Map(forecast.steps.map((step) => [step.stepId, step]));
  return (stepId) => {
    const step = steps.get(stepId);
    return step === undefined ? undefined : step.endMin.p50 - step.startMin.p50;
  };
}
