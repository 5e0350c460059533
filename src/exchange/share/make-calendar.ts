/** The day of a planned make as a calendar file: when to begin what, and every step that wants hands. */
import { preparationsOf } from '../schedule.ts';
import { calendarText, type CalendarMoment } from '../icalendar.ts';
import { quantityText, sentence, stepsOfDay, type Told } from '../paper/step-words.ts';
import { preparedAmount } from '../../forecast/ready-amount.ts';
import { clockBand, type Sheet } from '../text/telling.ts';

const MINUTE_MS = 60_000;
/** What is made ready the evening before is called for so long before the start: a make of nine is called for at seven. Our own choice. */
const EVENING_BEFORE_MIN = 14 * 60;

/**
 * @param input.id unique to this plan: taken in again, its events replace those of before
 * @param input.madeAt milliseconds UTC
 * @returns an iCalendar file (RFC 5545)
 */
export function makeCalendar(input: { readonly sheet: Sheet; readonly told: Told; readonly id: string; readonly madeAt: number }): string {
  const { sheet, madeAt } = input;
  const moments = [...preparations(input), ...steps(input)].filter(({ at }) => Number.isFinite(at)).sort((a, b) => a.at - b.at);
  return calendarText({ name: sheet.plan.make.name, madeAt, moments });
} // prettier-ignore

type Asked = Parameters<typeof makeCalendar>[0];

function steps({ sheet, told, id }: Asked): CalendarMoment[] {
  const { plan, forecast, schedule } = sheet;
  const foreseen = new Map(forecast.steps.map((step) => [step.stepId, step]));
  return stepsOfDay({ plan, lastStepId: schedule.lastStepId }).flatMap((step): CalendarMoment[] => {
    const ahead = foreseen.get(step.id);
    const { start, during, end } = step.handsMin;
    if (ahead === undefined || start + during + end === 0) return [];
    return [
      {
        id: `${id}.${step.id}`,
        at: schedule.zeroAt + ahead.startMin.p50 * MINUTE_MS,
        minutes: Math.max(1, ahead.endMin.p50 - ahead.startMin.p50),
        title: told.say('paper:calendar.step', { name: step.name, make: plan.make.name }),
        note: `${sentence(told, step.how)} ${told.say('paper:calendar.band', { band: clockBand(sheet, ahead.startMin) })}`,
      },
    ];
  });
}

function preparations({ sheet, told, id }: Asked): CalendarMoment[] {
  const { plan, forecast, schedule } = sheet;
  return preparationsOf({ plan, forecast }).map((timed) => {
    const ready = preparedAmount({ plan, forecast, step: timed.step, preparation: timed.preparation });
    const amount = ready === null ? '' : quantityText({ unit: ready.unit, value: ready.value, told });
    return {
      id: `${id}.${timed.id}`,
      at: timed.isEveningBefore ? schedule.zeroAt - EVENING_BEFORE_MIN * MINUTE_MS : schedule.zeroAt + timed.startMin * MINUTE_MS,
      minutes: 10,
      title: told.say('paper:calendar.begin', { what: [sentence(told, timed.preparation.what), amount].filter((one) => one !== '').join(', ') }),
      note: told.say('paper:calendar.for', { step: timed.step.name, make: plan.make.name }),
    };
  });
} // prettier-ignore
