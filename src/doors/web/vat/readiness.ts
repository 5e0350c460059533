import type { Forecast, StepForecast } from '../../../forecast/forecast.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { readyBy } from '../chart/dots.ts';
import { clockOf, instantOf, type Telling } from './said.ts';
import type { JudgementName } from '../../../make/judgement.ts';

/** A step that ends by an eye or a hand: what to test, when, how likely, and what early and late would cost. */
export interface Readiness {
  readonly judgement: JudgementName;
  readonly grade: string;
  /** Minutes of the batch; null when no further look is foreseen. */
  readonly nextLookMin: number | null;
  readonly lines: readonly string[];
}

/** The judgement that a step waits for, if it waits for one. */
export function judgementAwaited(
  step: PlannedStep,
): { readonly judgement: JudgementName; readonly grade: string } | null {
  for (const condition of step.until.of) {
    if (condition.kind === 'judgement') return { judgement: condition.judgement, grade: condition.grade };
  }
  return null;
}

const DEFAULT_LOOK_MIN = 10; // common practice (no source)

/** How readiness is watched in this step; null where no judgement ends it. */
export function readinessOf(input: {
  readonly step: PlannedStep;
  readonly plan: Plan;
  readonly record: BatchRecord;
  readonly forecast: Forecast | null;
  readonly foreseen: StepForecast | undefined;
  readonly nowMin: number;
  readonly telling: Telling;
}): Readiness | null {
  const awaited = judgementAwaited(input.step);
  if (awaited === null) return null;
  const looks = lookAgain(input);
  return {
    ...awaited,
    nextLookMin: looks[0] ?? null,
    lines: [
      lookLine(input, looks),
      countLine(input, looks),
      waterLine(input),
      costLine(input, awaited.judgement),
    ].filter((line) => line !== null),
  };
}

/** The next two moments to look: those foreseen that are still ahead, counted from the last look at the earliest. */
export function lookAgain(input: {
  readonly foreseen: StepForecast | undefined;
  readonly nowMin: number;
}): readonly number[] {
  const ahead = (input.foreseen?.looksMin ?? []).filter(
    (lookMin) => Number.isFinite(lookMin) && lookMin > input.nowMin,
  );
  return ahead.slice(0, 2);
}

/** When to look again after "not yet": the next foreseen look, or ten minutes on while there is none. */
export function nextLookAfter(input: { readonly foreseen: StepForecast | undefined; readonly nowMin: number }): number {
  return lookAgain(input)[0] ?? input.nowMin + DEFAULT_LOOK_MIN;
}

type Asked = Parameters<typeof readinessOf>[0];

function lookLine({ telling, step, record }: Asked, looks: readonly number[]): string | null {
  const [first, second] = looks;
  if (first === undefined) return null;
  const awaited = judgementAwaited(step);
  const tested = record.judgements.some(
    (judged) => judged.judgement === awaited?.judgement && judged.at >= startOf(record, step.id),
  );
  const key = tested ? 'again' : 'first';
  return second === undefined
    ? telling.say(`vat:look.${key}`, { at: clockOf(telling, first) })
    : telling.say(`vat:look.${key}Then`, { at: clockOf(telling, first), next: clockOf(telling, second) });
}

const startOf = (record: BatchRecord, stepId: string): number =>
  record.steps.find((step) => step.stepId === stepId)?.startedAt ?? 0;

/** "14 of 20 say ready by 14:35", told for the later of the two looks. */
function countLine({ foreseen, telling }: Asked, looks: readonly number[]): string | null {
  if (foreseen === undefined || foreseen.endDots.length === 0) return null;
  const byMin = looks[1] ?? looks[0] ?? foreseen.endMin.p75;
  if (!Number.isFinite(byMin)) return null;
  const count = readyBy({ dotsMin: foreseen.endDots, byMin });
  return telling.say('vat:look.count', { ready: count.ready, of: count.of, at: telling.write.clock(instantOf({ zeroAt: telling.zeroAt, elapsedMin: byMin })) }); // prettier-ignore
}

/** Hot water that the next step needs stands one burner-minute away while readiness is watched. */
function waterLine({ plan, step, forecast, telling }: Asked): string | null {
  const next = plan.steps[plan.steps.findIndex((one) => one.id === step.id) + 1];
  const waterC = next?.set.waterC;
  if (forecast === null || typeof waterC !== 'number' || next?.verb !== 'stretch') return null;
  const water = forecast.needs.stretchWaterKg;
  const minutes = forecast.needs.stretchWaterHeatMin;
  if (water === null) return null;
  return telling.say(minutes === null ? 'vat:look.water' : 'vat:look.waterTimed', {
    amount: telling.write.litres(water.p95).text,
    temperature: telling.write.degrees(forecast.needs.stretchWaterC ?? waterC).text,
    ...(minutes === null ? {} : { duration: telling.write.duration(minutes.p95) }),
  });
}

/** Kneading over-acid curd again, °C (common practice, no source). */
const RESCUE_C = { low: 65, high: 70 };

function costLine({ telling }: Asked, judgement: JudgementName): string {
  const { say, write } = telling;
  return say(`vat:cost.${judgement}`, {
    low: write.degrees(RESCUE_C.low).number,
    high: write.degrees(RESCUE_C.high).text,
  });
}
