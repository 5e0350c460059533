import { bandOf } from '../chart/band-of.ts';
import { beyondOf, expectedReading } from '../chart/expected-reading.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { clockOf, type Telling } from './said.ts';

/** Whether the make is on course, in one of six forms, with the last reading against what was expected of it. */
export interface Course {
  readonly form: 'on-course' | 'faster' | 'slower' | 'slipping' | 'doubted' | 'too-little';
  readonly text: string;
  readonly bar: CourseBar | null;
}

/** The last reading inside its expected half band and nine-in-ten band, as shares of the bar's width. */
export interface CourseBar {
  readonly text: string;
  readonly at: number;
  readonly halfFrom: number;
  readonly halfTo: number;
  readonly mostFrom: number;
  readonly mostTo: number;
}

/** A shift smaller than this is not worth a word (common practice, no source). */
const SHIFT_WORTH_SAYING_MIN = 10;
/** Below even chances the aim is slipping. */
const SLIPPING_BELOW = 0.5;

/**
 * Compares what is foreseen now with what was foreseen at the opening.
 * @param input.planned forecast as the batch was opened; null while it is being computed
 * @param input.before forecast just before the last reading, which it is compared with; null if there is none
 */
export function courseOf(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly planned: Forecast | null;
  readonly before: Forecast | null;
  readonly telling: Telling;
}): Course {
  const { record, forecast, planned, telling } = input;
  const bar = barOf(input);
  const evidence = record.readings.length + record.judgements.length;
  if (forecast === null || evidence === 0)
    return { form: 'too-little', text: telling.say('vat:course.tooLittle'), bar };
  const slipping = slippingAim(input.plan, forecast);
  if (slipping !== null) return { form: 'slipping', text: slippingText(telling, slipping), bar };
  const shift = planned === null ? null : nextShift({ forecast, planned, plan: input.plan });
  if (shift === null || Math.abs(shift.nowMin - shift.plannedMin) < SHIFT_WORTH_SAYING_MIN) {
    // "On course" beside a reading that nothing foresaw would contradict itself.
    return isDoubted(input)
      ? { form: 'doubted', text: telling.say('vat:course.doubted'), bar }
      : { form: 'on-course', text: telling.say('vat:course.onCourse'), bar };
  }
  const form = shift.nowMin < shift.plannedMin ? 'faster' : 'slower';
  const text = telling.say(`vat:course.${form}`, {
    step: shift.name,
    now: clockOf(telling, shift.nowMin),
    planned: clockOf(telling, shift.plannedMin),
  });
  return { form, text, bar };
}

/** The next step that the clock alone does not end, and when it is over: now and as planned. */
function nextShift(input: {
  readonly forecast: Forecast;
  readonly planned: Forecast;
  readonly plan: Plan;
}): { name: string; nowMin: number; plannedMin: number } | null {
  for (const step of input.plan.steps) {
    const now = input.forecast.steps.find((one) => one.stepId === step.id);
    const then = input.planned.steps.find((one) => one.stepId === step.id);
    if (now === undefined || then === undefined || now.state === 'done') continue;
    if (!step.until.of.some((condition) => condition.kind !== 'time')) continue;
    if (!Number.isFinite(now.endMin.p50) || !Number.isFinite(then.endMin.p50)) continue;
    return { name: step.done, nowMin: now.endMin.p50, plannedMin: then.endMin.p50 };
  }
  return null;
}

function slippingAim(
  plan: Plan,
  forecast: Forecast,
): { readonly aim: Plan['make']['aims'][number]; readonly chance: number } | null {
  for (const foreseen of forecast.aims) {
    const aim = plan.make.aims[foreseen.aim];
    if (aim === undefined || aim.quantity !== 'pH' || foreseen.probability >= SLIPPING_BELOW) continue;
    const moment = forecast.steps.find((step) => step.stepId === aim.moment);
    if (moment?.state === 'done') continue;
    return { aim, chance: foreseen.probability };
  }
  return null;
}

function slippingText(
  telling: Telling,
  slipping: { readonly aim: Plan['make']['aims'][number]; readonly chance: number },
): string {
  return telling.say('vat:course.slipping', {
    inTen: Math.round(slipping.chance * 10),
    low: telling.write.pH(slipping.aim.low).number,
    high: telling.write.pH(slipping.aim.high).number,
  });
}

/** Whether the last reading lay outside 98 of 100 of what was expected of it. */
function isDoubted(input: Parameters<typeof courseOf>[0]): boolean {
  const against = lastAgainst(input);
  return against !== null && beyondOf(against.last.value, against.expected) !== null;
}

/** The last reading that a band foresees, and what its instrument was expected to say just before it. */
function lastAgainst({ record, plan, before, telling }: Parameters<typeof courseOf>[0]) {
  const last = record.readings.findLast((reading) => bandOf(reading) !== null);
  if (last === undefined) return null;
  const elapsedMin = (last.at - telling.zeroAt) / 60_000;
  const expected = expectedReading({ ...last, elapsedMin, forecast: before, setup: plan.setup });
  return expected === null ? null : { last, expected };
}

function barOf(input: Parameters<typeof courseOf>[0]): CourseBar | null {
  const against = lastAgainst(input);
  if (against === null) return null;
  const { last, expected: cut } = against;
  const { quantity } = last;
  const margin = Math.max((cut.p95 - cut.p5) * 0.25, quantity === 'temperatureC' ? 0.2 : 0.02);
  const low = Math.min(cut.p5, last.value) - margin;
  const high = Math.max(cut.p95, last.value) + margin;
  const share = (value: number): number => (value - low) / (high - low);
  const { say, write } = input.telling;
  const written = (value: number) => (quantity === 'temperatureC' ? write.temperature(value) : write.pH(value));
  const text = say(quantity === 'temperatureC' ? 'vat:course.lastTemperature' : 'vat:course.lastPH', {
    value: written(last.value).text,
    at: write.clock(last.at),
    low: written(cut.p5).number,
    high: written(cut.p95).text,
  });
  return { text, at: share(last.value), halfFrom: share(cut.p25), halfTo: share(cut.p75), mostFrom: share(cut.p5), mostTo: share(cut.p95) }; // prettier-ignore
}
