import type { Forecast } from './forecast.ts';

/** A step as the plan would have had it while nobody noted anything; minutes of the batch. */
export interface AssumedStep {
  readonly stepId: string;
  readonly startMin: number;
  /** Null while it would still be running. */
  readonly endMin: number | null;
}

/**
 * The plan's own course over a silence, from the middle of a forecast that took the plan to be kept
 * (`History.assumedFromMin`): the steps that would be over by now, and the one that would be running.
 *
 * @returns in order, beginning with the step that was noted as running; empty without a silence, and where the plan itself
 * has nothing end by now, so that nothing need be assumed
 */
export function assumedSteps(input: { readonly forecast: Forecast }): AssumedStep[] {
  const { steps, nowMin, assumedFromMin } = input.forecast;
  if (assumedFromMin === undefined) return [];
  const found: AssumedStep[] = [];
  for (const { stepId, state, startMin, endMin } of steps) {
    if (state === 'done') continue;
    if (!(startMin.p50 <= nowMin)) break;
    const isOver = endMin.p50 <= nowMin;
    found.push({ stepId, startMin: startMin.p50, endMin: isOver ? endMin.p50 : null });
    if (!isOver) break;
  }
  const [first] = found;
  const isAsNoted = found.length === 1 && first?.endMin === null && isRunning(input.forecast, first.stepId);
  return isAsNoted ? [] : found;
}

const isRunning = (forecast: Forecast, stepId: string): boolean =>
  forecast.steps.find((step) => step.stepId === stepId)?.state === 'running';
