import { HANDS_VERBS } from '../../../forecast/course.ts';
import type { StepForecast } from '../../../forecast/forecast.ts';
import type { PlannedStep } from '../../../make/plan.ts';
import { cutByFlecksMin, rennetInAt } from '../vat/actions.ts';
import { foreseen, standingOf } from '../vat/current-step.ts';
import { judgementAwaited } from '../vat/readiness.ts';
import { instantOf } from '../vat/said.ts';
import { conditionsShown } from '../vat/until.ts';
import { dueAnswers, MINUTE_MS, type CallsInput } from './call-parts.ts';
import type { Call } from './call.ts';
import { overrunCalls } from './overrun-calls.ts';

/** A step that runs, and since when. */
export interface Running extends CallsInput {
  readonly step: PlannedStep;
  readonly startedAt: number;
  readonly ahead: StepForecast | undefined;
}

/** A pH is read again after so long, a judgement made without a timer looked at again (common practice, no source). */
const READ_AGAIN_MIN = 15;
const LOOK_AGAIN_MIN = 10;

/** What the running step calls for: its time being over, a look, a long overrun. */
export function stepCalls(input: CallsInput): readonly Call[] {
  const { stage, step, startedAt } = standingOf(input);
  if (stage !== 'running' || step === null || startedAt === null) return [];
  const running: Running = { ...input, step, startedAt, ahead: foreseen({ forecast: input.forecast, stepId: step.id }) }; // prettier-ignore
  return [endCall, flecksCall, lookCall, readCall, foreseenCall]
    .map((call) => call(running))
    .filter((call) => call !== null)
    .concat(overrunCalls(running));
}

type Part = Pick<Call, 'id' | 'dueAt' | 'isExact' | 'seen' | 'what' | 'spoken'> & Partial<Call>;

const due = ({ step, telling }: Running, part: Part): Call => ({
  class: 'due',
  cause: step.id,
  by: null,
  cost: null,
  answers: dueAnswers(telling),
  ...part,
});

/** The minutes of a step that only the clock ends; where hands end it, the clock is worth a silent line at most. */
function endCall(running: Running): Call | null {
  const { step, plan, startedAt, telling } = running;
  const shown = conditionsShown(step, plan);
  const times = shown.flatMap((one) => (one.kind === 'time' ? [one.minutes.value] : []));
  if (times.length === 0 || times.length < shown.length) return null;
  const minutes = step.until.join === 'all' ? Math.max(...times) : Math.min(...times);
  const next = plan.steps[plan.steps.findIndex((one) => one.id === step.id) + 1];
  const values = {
    step: step.name,
    duration: telling.write.duration(minutes),
    next: next?.name ?? step.done,
    done: step.done,
  };
  return due(running, {
    id: `${step.id}.end`,
    class: HANDS_VERBS.has(step.verb) ? 'note' : 'due',
    dueAt: startedAt + minutes * MINUTE_MS,
    isExact: true,
    seen: telling.say('bell:end.seen', values),
    what: telling.say('bell:end.what', values),
    spoken: telling.say('bell:end.spoken', values),
  });
}

/** The first flecks, looked for from the early end of when they are foreseen. */
function flecksCall(running: Running): Call | null {
  const { step, record, ahead, telling } = running;
  const floc = step.until.of.find((one) => one.kind === 'flocculation');
  const rennetAt = rennetInAt(record);
  const early = ahead?.endMin.p5;
  if (floc === undefined || rennetAt === null || early === undefined || !Number.isFinite(early)) return null;
  if (record.readings.some((reading) => reading.quantity === 'flocculationMin')) return null;
  const cutAt = instantOf({ zeroAt: telling.zeroAt, elapsedMin: early });
  return due(running, {
    id: `${step.id}.flecks`,
    cause: `${step.id}.flecks`,
    dueAt: Math.round(rennetAt + (cutAt - rennetAt) / floc.multiplier.value),
    isExact: false,
    seen: telling.say('bell:flecks.seen'),
    what: telling.say('bell:flecks.what'),
    spoken: telling.say('bell:flecks.spoken'),
  });
}

/** A judgement to be looked at: when it was put off to, by the fleck time, or when it is first foreseen. */
function lookCall(running: Running): Call | null {
  const { step, record, startedAt, planned, telling } = running;
  const awaited = judgementAwaited(step);
  if (awaited === null) return null;
  const looked = record.judgements.filter((one) => one.judgement === awaited.judgement && one.at >= startedAt);
  const timer = record.timers.findLast((one) => one.timerId === `look.${step.id}` && one.startedAt >= startedAt);
  const flecksMin = cutByFlecksMin({ step, record, telling });
  const lookAt = foreseenLook(running);
  const last = looked.at(-1);
  const at = (minute: number): number => Math.round(instantOf({ zeroAt: telling.zeroAt, elapsedMin: minute }));
  const exactAt =
    timer !== undefined && looked.length > 0
      ? timer.startedAt + timer.lastsMs
      : flecksMin !== null && looked.length === 0
        ? at(flecksMin)
        : null;
  const again = last === undefined ? 0 : last.at + LOOK_AGAIN_MIN * MINUTE_MS;
  const dueAt = exactAt ?? (lookAt === null ? null : Math.max(lookAt, again));
  if (dueAt === null) return null;
  const first = foreseen({ forecast: planned, stepId: step.id });
  const opening = first === undefined || !Number.isFinite(first.looksMin[0] ?? Number.NaN) ? null : startedAt + Math.round(((first.looksMin[0] ?? 0) - first.startMin.p50) * MINUTE_MS); // prettier-ignore
  const question = telling.say(`vat:judge.${awaited.judgement}.title`);
  return due(running, {
    id: `${step.id}.look.${looked.length}`,
    dueAt,
    isExact: exactAt !== null,
    ...(looked.length === 0 && exactAt === null && opening !== null ? { missedAt: opening } : {}),
    look: awaited.judgement,
    seen: telling.say(flecksMin !== null && looked.length === 0 ? 'bell:look.cut' : looked.length === 0 ? 'bell:look.first' : 'bell:look.again', { step: step.name }), // prettier-ignore
    what: question,
    spoken: question,
  });
}

function foreseenLook({ ahead, telling }: Running): number | null {
  const look = ahead?.looksMin[0];
  if (look === undefined || !Number.isFinite(look)) return null;
  return Math.round(instantOf({ zeroAt: telling.zeroAt, elapsedMin: look }));
}

/** A pH that decides, where there is a meter and no judgement. */
function readCall(running: Running): Call | null {
  const { step, plan, record, startedAt, telling } = running;
  if (!plan.setup.pHMeter || judgementAwaited(step) !== null) return null;
  const wanted = step.until.of.find((one) => one.kind === 'pH');
  const lookAt = foreseenLook(running);
  if (wanted === undefined || lookAt === null) return null;
  const read = record.readings.filter((one) => one.quantity === 'pH' && one.at >= startedAt);
  const again = (read.at(-1)?.at ?? Number.NEGATIVE_INFINITY) + READ_AGAIN_MIN * MINUTE_MS;
  const pH = telling.write.pH(wanted.at.value).text;
  return due(running, {
    id: `${step.id}.read.${read.length}`,
    dueAt: Math.max(lookAt, again),
    isExact: false,
    seen: telling.say('bell:read.seen', { step: step.name }),
    what: telling.say('bell:read.what', { pH }),
    spoken: telling.say('bell:read.spoken', { pH }),
  });
}

/** What a thermometer or the salt ends: called for a little early while it warms, at the likely moment while it cools or lies in brine. */
function foreseenCall(running: Running): Call | null {
  const { step, ahead, telling } = running;
  const [kind] = conditionsShown(step, running.plan).map((one) => one.kind);
  if (kind !== 'temperature' && kind !== 'coreTemperature' && kind !== 'salt') return null;
  if (HANDS_VERBS.has(step.verb)) return null;
  const minute = kind === 'temperature' ? ahead?.endMin.p5 : ahead?.endMin.p50;
  if (minute === undefined || !Number.isFinite(minute)) return null;
  const off = running.forecast?.needs.heatOffC.find((one) => one.stepId === step.id)?.offC.p50;
  const words = kind === 'temperature' && off === undefined ? 'warm' : kind;
  const values = { step: step.name, off: off === undefined ? '' : telling.write.temperature(off).text, done: step.done }; // prettier-ignore
  return due(running, {
    id: `${step.id}.${kind}`,
    dueAt: Math.round(instantOf({ zeroAt: telling.zeroAt, elapsedMin: minute })),
    isExact: false,
    seen: telling.say(`bell:${words}.seen`, values),
    what: telling.say(`bell:${words}.what`, values),
    spoken: telling.say(`bell:${words}.spoken`, values),
  });
}
