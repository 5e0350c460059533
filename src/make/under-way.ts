/** A make changed while it runs: what is over stays as it was, what runs is changed from now on. */
import type { Adjustable } from './adjustable.ts';
import type { History } from './history.ts';
import type { Plan, PlannedStep } from './plan.ts';

type NotedSteps = History['steps'];

/**
 * The plan after a change at some minute of the make. Steps that were over keep their figures; of a step that was running
 * only its end and the temperature it is held at change, and what it was held at until then is kept beside.
 */
export function changedUnderWay(input: {
  readonly before: Plan;
  readonly after: Plan;
  readonly steps: NotedSteps;
  readonly atMin: number;
}): Plan {
  const { before, after, atMin } = input;
  const steps = after.steps.map((step): PlannedStep => {
    const was = before.steps.find((one) => one.id === step.id);
    const state = was === undefined ? 'coming' : stateAt({ ...input, stepId: step.id });
    if (was === undefined || state === 'coming') return step;
    return state === 'over' ? was : changedWhileRunning(was, step, atMin);
  });
  return { ...after, steps };
}

function changedWhileRunning(was: PlannedStep, step: PlannedStep, atMin: number): PlannedStep {
  const { until } = step;
  const from = was.set.atC;
  const to = step.set.atC;
  if (typeof from !== 'number' || typeof to !== 'number' || from === to) return { ...was, until };
  const heldUntil = [...(was.heldUntil ?? []), { atC: from, untilMin: atMin }];
  return { ...was, until, set: { ...was.set, atC: to }, heldUntil };
}

/** Where a step stood at a minute. One that a later step has passed is over, noted or not. */
function stateAt(input: {
  readonly before: Plan;
  readonly steps: NotedSteps;
  readonly atMin: number;
  readonly stepId: string;
}): 'over' | 'running' | 'coming' {
  const { before, steps, atMin, stepId } = input;
  const order = before.steps.map((step) => step.id);
  const begun = steps.filter((step) => step.startedMin <= atMin);
  const noted = begun.filter((step) => step.stepId === stepId).at(-1);
  const isPassed = begun.some((step) => order.indexOf(step.stepId) > order.indexOf(stepId));
  if (isPassed || (noted?.endedMin !== undefined && noted.endedMin <= atMin)) return 'over';
  return noted === undefined ? 'coming' : 'running';
}

const LEAST_LEFT_MIN = 1; // nobody ends a step sooner than this from now: our own choice

/** What may still be set otherwise at the history's now; minutes of a running step never below what has passed. */
export function stillOpen(input: {
  readonly plan: Plan;
  readonly adjustables: readonly Adjustable[];
  readonly history: Pick<History, 'steps' | 'nowMin'>;
}): readonly Adjustable[] {
  const { plan, history } = input;
  const { nowMin: atMin, steps } = history;
  return input.adjustables.flatMap((adjustable): Adjustable[] => {
    const { stepId, unit, isEnd, high } = adjustable;
    const state = stateAt({ before: plan, steps, atMin, stepId });
    if (state === 'coming') return [adjustable];
    const running = steps.filter((step) => step.stepId === stepId).at(-1);
    if (state === 'over' || running === undefined) return [];
    // The pot can be held warmer or cooler while the step lasts; sizes and strengths were decided as it began.
    const isHold = unit === '°C' && typeof plan.steps.find((step) => step.id === stepId)?.set.atC === 'number';
    if (!isEnd) return isHold ? [adjustable] : [];
    if (unit !== 'min') return [adjustable];
    const low = Math.max(adjustable.low, Math.ceil(atMin - running.startedMin + LEAST_LEFT_MIN));
    return low < high ? [{ ...adjustable, low }] : [];
  });
}
