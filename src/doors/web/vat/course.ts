import { bandOf } from '../chart/band-of.ts';
import { beyondOf, expectedReading } from '../chart/expected-reading.ts';
import { courseTold } from '../../../exchange/course-told.ts';
import { historyOf } from '../../../exchange/history.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import { onCourse, type OnCourse } from '../../../forecast/on-course.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Telling } from './said.ts';

/** Whether the make is on course and why not, with the last reading against what was expected of it. */
export interface Course {
  readonly form: OnCourse['state'] | 'doubted';
  readonly text: string;
  readonly because: string | null;
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

/**
 * Compares what is foreseen now with what was foreseen when the plan that runs was taken.
 * @param input.planned forecast as the batch was opened, or as its plan was last changed; null while it is being computed
 * @param input.before forecast just before the last reading, which it is compared with; null if there is none
 */
export function courseOf(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly planned: Forecast | null;
  readonly before: Forecast | null;
  readonly nowAt: number;
  readonly telling: Telling;
}): Course {
  const { record, plan, forecast, planned, nowAt, telling } = input;
  const bar = barOf(input);
  if (forecast === null) return { form: 'too-little', text: telling.say('vat:forecasting'), because: null, bar };
  const mixed = record.joined.findLast(({ way }) => way === 'took');
  if (mixed !== undefined) return { form: 'doubted', text: mixedText(mixed, telling), because: null, bar };
  const course = onCourse({ plan, history: historyOf({ record, nowAt }), forecast, planned });
  // "On course" beside a reading that nothing foresaw would contradict itself.
  if (course.state === 'on-course' && isDoubted(input)) {
    return { form: 'doubted', text: telling.say('vat:course.doubted'), because: null, bar };
  }
  const told = courseTold(course, plan, { ...telling, nowMin: (nowAt - telling.zeroAt) / 60_000 });
  return { form: course.state, ...told, bar };
}

/** Another pot's curd is in it: nothing that is foreseen knows of that, and it is said so. */
function mixedText({ name, at, massKg }: BatchRecord['joined'][number], { say, write }: Telling): string {
  const values = { pot: name, at: write.clock(at) };
  return massKg === undefined
    ? say('pots:join.inexact', values)
    : say('pots:join.inexactKg', { ...values, weight: write.kilograms(massKg).text });
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
