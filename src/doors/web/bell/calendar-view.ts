import { calendarText, type CalendarMoment } from '../../../exchange/icalendar.ts';
import { HANDS_VERBS } from '../../../forecast/course.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { preparationsAhead, withAmount } from '../vat/coming.ts';
import { foreseen } from '../vat/current-step.ts';
import { judgementAwaited } from '../vat/readiness.ts';
import { clockOf, instantOf, type Telling } from '../vat/said.ts';
import { isForTheEvening } from '../../../exchange/schedule.ts';

const LOOK_MIN = 5;

/** The times of the make for somebody else's bell: waits that end, tests, and what must be put on, as foreseen now. */
export function calendarOf(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly nowAt: number;
  readonly telling: Telling;
}): string {
  const { record, plan, nowAt, telling } = input;
  const names = { make: plan.make.name, pot: record.name };
  const moments = [...stepMoments(input), ...preparationMoments(input)]
    .filter(({ at }) => Number.isFinite(at) && at > nowAt)
    .sort((a, b) => a.at - b.at);
  return calendarText({ name: telling.say('bell:calendar.name', names), madeAt: nowAt, moments });
}

type Asked = Parameters<typeof calendarOf>[0];

function stepMoments({ record, plan, forecast, telling }: Asked): readonly CalendarMoment[] {
  const { say } = telling;
  return plan.steps.flatMap((step): CalendarMoment[] => {
    const ahead = foreseen({ forecast, stepId: step.id });
    if (ahead === undefined || ahead.state === 'done' || HANDS_VERBS.has(step.verb)) return [];
    const isJudged = judgementAwaited(step) !== null;
    const look = ahead.looksMin[0];
    const minute = isJudged && look !== undefined ? look : ahead.endMin.p50;
    const what = say(isJudged ? 'bell:calendar.look' : 'bell:calendar.end', { step: step.name });
    return [
      {
        id: `${record.batchId}.${step.id}`,
        at: instantOf({ zeroAt: telling.zeroAt, elapsedMin: minute }),
        minutes: LOOK_MIN,
        title: say('bell:calendar.event', { pot: record.name, what }),
        note: Number.isFinite(ahead.endMin.p95) ? say('bell:calendar.span', { from: clockOf(telling, ahead.endMin.p5), to: clockOf(telling, ahead.endMin.p95) }) : '', // prettier-ignore
      },
    ];
  });
}

function preparationMoments({ record, plan, forecast, telling }: Asked): readonly CalendarMoment[] {
  return preparationsAhead({ record, plan, forecast, index: -1 })
    .filter((one) => !isForTheEvening(one.preparation))
    .map(({ item, step, preparation, beginMin }) => {
      const what = telling.say('bell:calendar.begin', { what: withAmount({ plan, forecast, step, preparation, telling }) }); // prettier-ignore
      return {
        id: `${record.batchId}.${item}`,
        at: instantOf({ zeroAt: telling.zeroAt, elapsedMin: beginMin }),
        minutes: LOOK_MIN,
        title: telling.say('bell:calendar.event', { pot: record.name, what }),
        note: '',
      };
    });
}
