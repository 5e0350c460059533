import { withAssumed, type Silence } from '../../../exchange/silence.ts';
import { assumedSteps, type AssumedStep } from '../../../forecast/assumed.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { additionOf, type Entry } from './actions.ts';
import { standingOf } from './current-step.ts';
import { clockOf, instantOf, type Telling } from './said.ts';

/** What is asked after a long silence, and what either answer notes. */
export interface SilenceView {
  readonly text: string;
  readonly yes: { readonly label: string; readonly entries: readonly Entry[] };
  readonly no: { readonly label: string; readonly entries: readonly Entry[] };
  /** The record with what is assumed: for the card alone, never kept. */
  readonly record: BatchRecord;
}

/** The last few steps are enough to see whether it is so. */
const MOST_TOLD = 3;

/** Asks about a silence once the forecast has filled it; null where nothing need be assumed. */
export function silenceView(input: {
  readonly silence: Silence | null;
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly telling: Telling;
}): SilenceView | null {
  const { silence, record, plan, forecast, telling } = input;
  if (silence === null || forecast === null) return null;
  const assumed = assumedSteps({ forecast });
  if (assumed.length === 0) return null;
  const { say, write } = telling;
  const nameOf = (stepId: string): string => plan.steps.find((step) => step.id === stepId)?.name ?? stepId;
  const over = assumed.filter((one) => one.endMin !== null);
  const running = assumed.find((one) => one.endMin === null);
  const told = over.slice(-MOST_TOLD).map((one) =>
    say('vat:silence.over', {
      what: plan.steps.find((step) => step.id === one.stepId)?.done ?? one.stepId,
      at: clockOf(telling, one.endMin ?? 0),
    }),
  );
  const now = running === undefined ? say('vat:silence.finished') : nameOf(running.stepId);
  const was = standingOf({ record, plan });
  const isRunning = was.stage === 'running' && was.step !== null;
  const no = isRunning ? say('vat:silence.still', { step: was.step.name }) : say('vat:silence.notBegun');
  return {
    text: say(told.length === 0 ? 'vat:silence.begun' : 'vat:silence.text', {
      since: write.clock(silence.sinceAt),
      over: told.join(', '),
      now,
    }),
    yes: { label: say('vat:silence.yes'), entries: keptEntries({ assumed, record, plan, telling }) },
    no: {
      label: no,
      entries: [{ kind: 'alarmAnswered', body: { alarmId: silence.alarmId, answer: isRunning ? `still ${was.step.id}` : 'not begun' } }], // prettier-ignore
    },
    record: withAssumed({ record, assumed, steps: plan.steps }),
  };
}

/** The plan's course as the maker confirms it: each start, addition and end at its assumed minute. */
function keptEntries(input: {
  readonly assumed: readonly AssumedStep[];
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly telling: Telling;
}): readonly Entry[] {
  const { assumed, record, plan, telling } = input;
  const begun = new Set(record.steps.map((step) => step.stepId));
  const at = (elapsedMin: number): number => Math.round(instantOf({ zeroAt: telling.zeroAt, elapsedMin }));
  return assumed.flatMap(({ stepId, startMin, endMin }): Entry[] => {
    const step = plan.steps.find((one) => one.id === stepId);
    const start: Entry[] = begun.has(stepId) ? [] : [{ kind: 'stepStarted', body: { stepId }, happenedAt: at(startMin) }]; // prettier-ignore
    if (step === undefined || endMin === null) return start;
    const happenedAt = at(endMin);
    return [
      ...start,
      ...additionOf({ step, plan, fractionOfPlan: 1 }).map((entry) => ({ ...entry, happenedAt })),
      { kind: 'stepEnded', body: { stepId, said: telling.say('vat:silence.said') }, happenedAt },
    ];
  });
}
