import type { Forecast } from '../../../forecast/forecast.ts';
import { preparedAmount } from '../../../forecast/ready-amount.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { foreseen } from './current-step.ts';
import { readyWritten } from '../plan/amount-written.ts';
import { asSaid, clockOf, type Telling } from './said.ts';

/** What comes after this step, and what must be begun now or soon so that it is ready then. */
export interface Coming {
  readonly text: string | null;
  readonly prepare: readonly Preparation[];
}

export interface Preparation {
  /** Id of the `prepared` event that says it is done. */
  readonly item: string;
  readonly text: string;
  /** "now", or the clock time to begin at. */
  readonly when: string;
  readonly isDue: boolean;
}

/** Preparations that begin within this many minutes are named (common practice, no source). */
const LOOK_AHEAD_MIN = 60;
const MOST_NAMED = 2;

/** The next step and the preparations of all coming steps that begin soonest. */
export function comingAfter(input: {
  readonly plan: Plan;
  readonly record: BatchRecord;
  readonly forecast: Forecast | null;
  readonly index: number;
  readonly nowMin: number;
  readonly telling: Telling;
}): Coming {
  const { plan, forecast, index, telling } = input;
  const next = plan.steps[index + 1];
  if (next === undefined) return { text: null, prepare: [] };
  const startMin = foreseen({ forecast, stepId: next.id })?.startMin.p50;
  const text =
    startMin === undefined || !Number.isFinite(startMin)
      ? telling.say('vat:then.untimed', { step: next.name })
      : telling.say('vat:then.timed', { at: clockOf(telling, startMin), step: next.name });
  return { text, prepare: preparations(input) };
}

/** A preparation of a step to come that nobody has called ready, and when to begin it. */
export interface PreparationAhead {
  /** Item of the `prepared` event. */
  readonly item: string;
  readonly step: PlannedStep;
  readonly preparation: PlannedStep['prepare'][number];
  /** Minutes of the batch. By the early quarter of the span: too early costs little, too late stops the make. */
  readonly beginMin: number;
  readonly readyMin: number;
}

/** Every preparation still to be made for the steps after this place of the plan, soonest first. */
export function preparationsAhead(input: {
  readonly plan: Plan;
  readonly record: BatchRecord;
  readonly forecast: Forecast | null;
  readonly index: number;
}): readonly PreparationAhead[] {
  const { plan, record, forecast, index } = input;
  const done = new Set(record.prepared.map((item) => item.item));
  return plan.steps
    .slice(index + 1)
    .flatMap((step) => {
      const startMin = foreseen({ forecast, stepId: step.id })?.startMin;
      if (startMin === undefined || !Number.isFinite(startMin.p25)) return [];
      return step.prepare.map((preparation) => ({
        item: `${step.id}.${preparation.id}`,
        step,
        preparation,
        beginMin: startMin.p25 - preparation.leadMinutes.value,
        readyMin: startMin.p25,
      }));
    })
    .filter((one) => !done.has(one.item))
    .sort((a, b) => a.beginMin - b.beginMin);
}

function preparations(input: Parameters<typeof comingAfter>[0]): Preparation[] {
  const { plan, forecast, nowMin, telling } = input;
  return preparationsAhead(input)
    .filter((one) => one.beginMin <= nowMin + LOOK_AHEAD_MIN)
    .slice(0, MOST_NAMED)
    .map(({ item, step, preparation, beginMin }) => ({
      item,
      text: withAmount({ plan, forecast, step, preparation, telling }),
      when:
        beginMin <= nowMin
          ? telling.say('vat:then.now')
          : telling.say('vat:then.from', { at: clockOf(telling, beginMin) }),
      isDue: beginMin <= nowMin,
    }));
}

/** A preparation with how much of it to have ready, where that is known. */
export function withAmount(input: {
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly step: PlannedStep;
  readonly preparation: PlannedStep['prepare'][number];
  readonly telling: Telling;
}): string {
  const { telling } = input;
  const ready = preparedAmount(input);
  const what = asSaid(input.preparation.what, telling);
  return ready === null
    ? what
    : telling.say('vat:then.withAmount', { what, amount: readyWritten(ready, telling).text });
}
