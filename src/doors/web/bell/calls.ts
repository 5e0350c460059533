import { isForTheEvening } from '../../../exchange/schedule.ts';
import { preparationsAhead, withAmount } from '../vat/coming.ts';
import { standingOf } from '../vat/current-step.ts';
import { asSaid, clockOf, instantOf } from '../vat/said.ts';
import { answer, dueAnswers, MINUTE_MS, type CallsInput } from './call-parts.ts';
import type { Call } from './call.ts';
import { heatCalls } from './heat-calls.ts';
import { stepCalls } from './step-calls.ts';

/** What stands on a burner or takes this long is rung for; the rest is a line on the card, minutes. Our own choice. */
const LONG_LEAD_MIN = 30;

/** Timers that somebody set by hand carry this before their id; those of a call put off, this and the call's id. */
export const HAND = 'hand.';
const LATER = 'later.';

/**
 * Everything that the maker is or will be called for, from the record, the plan and the forecast alone: the same on every
 * device and after every reload. When it is due is a time, not a countdown; whether it has come, the clock says.
 */
export function callsOf(input: CallsInput): readonly Call[] {
  const { record } = input;
  if (record.finishedAt !== null) return [];
  const calls = [...heatCalls(input), ...stepCalls(input), ...prepareCalls(input), ...timerCalls(input)];
  return calls.map((call) => putOff(call, input)).sort((a, b) => a.dueAt - b.dueAt || (a.id < b.id ? -1 : 1));
}

/** A call that was put off comes again as another, at its new time. */
function putOff(call: Call, { record }: CallsInput): Call {
  const timers = record.timers.filter((timer) => timer.timerId === LATER + call.id);
  const last = timers.at(-1);
  if (last === undefined) return call;
  const { missedAt: _missed, ...rest } = call;
  return { ...rest, id: `${LATER}${call.id}.${timers.length}`, dueAt: last.startedAt + last.lastsMs, isExact: true, isAsked: true }; // prettier-ignore
}

/** The timer that puts a call off, however often it was put off before. */
export function laterTimerId(call: Pick<Call, 'id'>): string {
  const [, of] = new RegExp(`^${LATER}(.*)\\.\\d+$`).exec(call.id) ?? [];
  return LATER + (of ?? call.id);
}

/** What must be begun so that it is ready when its step comes. */
function prepareCalls(input: CallsInput): readonly Call[] {
  const { plan, forecast, telling } = input;
  const { stage, index } = standingOf(input);
  if (stage !== 'running' && stage !== 'between') return [];
  return preparationsAhead({ ...input, index })
    .filter((one) => !isForTheEvening(one.preparation))
    .map(({ item, step, preparation, beginMin, readyMin }): Call => {
      const isLong = preparation.leadMinutes.value >= LONG_LEAD_MIN || preparation.amount === 'renneted-water';
      const dueAt = Math.round(instantOf({ zeroAt: telling.zeroAt, elapsedMin: beginMin }));
      const what = withAmount({ plan, forecast, step, preparation, telling });
      const ready = { step: step.name, at: clockOf(telling, readyMin) };
      return {
        id: `prepare.${item}`,
        class: isLong ? 'due' : 'note',
        cause: `prepare.${item}`,
        dueAt,
        isExact: false,
        seen: what,
        what: telling.say('bell:prepare.what', ready),
        by: null,
        cost: null,
        spoken: telling.say('bell:prepare.spoken', { what: asSaid(preparation.what, telling) }),
        answers: [answer(telling, 'begun'), ...dueAnswers(telling).slice(1)],
      };
    });
}

/** Kitchen timers set by hand: whatever they are for, they ring. */
function timerCalls({ record, telling }: CallsInput): readonly Call[] {
  return record.timers
    .filter((timer) => timer.timerId.startsWith(HAND))
    .map((timer): Call => ({
      id: timer.timerId,
      class: 'due',
      cause: timer.timerId,
      dueAt: timer.startedAt + timer.lastsMs,
      isExact: true,
      isAsked: true,
      seen: telling.say('bell:timer.seen', { label: timer.label, duration: telling.write.duration(timer.lastsMs / MINUTE_MS) }), // prettier-ignore
      what: telling.say('bell:timer.what', { at: telling.write.clock(timer.startedAt) }),
      by: null,
      cost: null,
      spoken: timer.label,
      answers: dueAnswers(telling),
    }));
}
