import type { Forecast, StepForecast } from '../../../forecast/forecast.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import type { BatchRecord, RecordedStep } from '../../../record/batch-record.ts';

/**
 * Where a batch stands in its make.
 * - `get-ready`: nothing begun yet; `step` is the first.
 * - `running`: `step` has begun and not ended.
 * - `between`: the one before has ended, `step` has not begun.
 * - `finishing`: every step is over, the batch is not closed.
 * - `closed`: finished.
 */
export interface Standing {
  readonly stage: 'get-ready' | 'running' | 'between' | 'finishing' | 'closed';
  readonly step: PlannedStep | null;
  /** Place of `step` in the plan, 0 for the first. */
  readonly index: number;
  readonly startedAt: number | null;
}

/** Finds the step that the maker is at, from what was noted. */
export function standingOf(input: { readonly record: BatchRecord; readonly plan: Plan }): Standing {
  const { record, plan } = input;
  const noted = new Map<string, RecordedStep>(record.steps.map((step) => [step.stepId, step]));
  const count = plan.steps.length;
  if (record.finishedAt !== null) return { stage: 'closed', step: null, index: count, startedAt: null };
  const running = plan.steps.findLastIndex((step) => {
    const here = noted.get(step.id);
    return here !== undefined && here.startedAt !== null && here.endedAt === null;
  });
  if (running !== -1) {
    const step = plan.steps[running] ?? null;
    return { stage: 'running', step, index: running, startedAt: noted.get(step?.id ?? '')?.startedAt ?? null };
  }
  const last = plan.steps.findLastIndex((step) => noted.has(step.id));
  const next = plan.steps[last + 1];
  if (next === undefined) return { stage: 'finishing', step: null, index: count, startedAt: null };
  return { stage: last === -1 ? 'get-ready' : 'between', step: next, index: last + 1, startedAt: null };
}

/** What the forecast says of one step; undefined while there is no forecast. */
export function foreseen(input: {
  readonly forecast: Forecast | null;
  readonly stepId: string;
}): StepForecast | undefined {
  return input.forecast?.steps.find((step) => step.stepId === input.stepId);
}
