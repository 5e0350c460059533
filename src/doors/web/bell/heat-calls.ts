import type { Forecast } from '../../../forecast/forecast.ts';
import { AFTER_VAT } from '../../../forecast/course.ts';
import type { PlannedStep } from '../../../make/plan.ts';
import { temperatureFactor } from '../../../science/acidification.ts';
import { CULTURES, type CultureTraits } from '../../../science/culture.ts';
import { survivingFractionKernel } from '../../../science/heat-death.ts';
import { standingOf } from '../vat/current-step.ts';
import { decisiveStep } from '../vat/decisive-step.ts';
import { answer, dueAnswers, MINUTE_MS, type CallsInput } from './call-parts.ts';
import type { Call } from './call.ts';

/** Above its best temperature, and at less than this share of its best growth, the culture suffers. Our own choice. */
const SUFFERS_BELOW = 0.7;
/** Colder than the step's temperature by this much is told, °C. Our own choice. */
const COLD_BY_C = 4;
/** Cells lost by when something must be done: one in ten. Our own choice. */
const LOST_SHARE = 0.1;
const LONGEST_MIN = 10;
const SHORTEST_MIN = 1;
/** What it costs is told for so much longer at this heat, minutes, and as a delay only from so many minutes on. */
const LEFT_MIN = 10;
const LEAST_DELAY_MIN = 5;
const MILKY: ReadonlySet<string> = new Set(['milk', 'curd', 'whey']);

/** The last temperature of milk, whey or curd, where the culture cannot live with it or hardly works at it. */
export function heatCalls(input: CallsInput): readonly Call[] {
  const { record, plan } = input;
  const { stage, step, startedAt } = standingOf(input);
  const kind = plan.make.doses.culture?.kind;
  if (stage !== 'running' || step === null || startedAt === null || kind === undefined) return [];
  if (AFTER_VAT.has(step.verb) || step.verb === 'stretch' || step.verb === 'wash' || step.verb === 'chillCurd')
    return [];
  if (!record.added.some((one) => one.ingredient === 'culture')) return [];
  const reading = record.readings.findLast((one) => one.quantity === 'temperatureC' && MILKY.has(one.sample));
  if (reading === undefined || reading.at < startedAt) return [];
  const of = { ...input, step, culture: CULTURES[kind], readC: reading.value, readAt: reading.at, eventId: reading.eventId }; // prettier-ignore
  return [hotCall(of) ?? coldCall(of)].filter((call) => call !== null);
}

interface Read extends CallsInput {
  readonly step: PlannedStep;
  readonly culture: CultureTraits;
  readonly readC: number;
  readonly readAt: number;
  readonly eventId: string;
}

function hotCall(read: Read): Call | null {
  const { culture, readC, readAt, eventId, step, telling } = read;
  const growth = temperatureFactor(culture, readC);
  if (readC <= culture.temperatureOptC || growth >= SUFFERS_BELOW) return null;
  const { say, write } = telling;
  const living = (minutes: number): number => survivingFractionKernel({ culture, temperatureC: readC, minutes, hardinessZ: 0 }); // prettier-ignore
  const perMinute = living(1);
  const untilLost = perMinute >= 1 ? LONGEST_MIN : Math.log(1 - LOST_SHARE) / Math.log(perMinute);
  const minutes = Math.max(SHORTEST_MIN, Math.min(LONGEST_MIN, Math.floor(untilLost)));
  const dead = Math.round((1 - living(LEFT_MIN)) * 10);
  const text = write.temperature(readC).text;
  const costs = [
    dead >= 1 ? say('bell:hot.dead', { dead: Math.min(dead, 10), minutes: LEFT_MIN }) : say('bell:hot.slow', { share: Math.round(growth * 10) }), // prettier-ignore
    delayText(read),
  ];
  return {
    id: `${step.id}.hot.${eventId}`,
    class: 'act',
    cause: `${step.id}.hot`,
    dueAt: readAt,
    isExact: true,
    seen: say('bell:hot.seen', { temperature: text }),
    what: say('bell:hot.what', { wanted: wantedText(read) }),
    by: say('bell:hot.by', { at: write.clock(readAt + minutes * MINUTE_MS), count: minutes }),
    cost: costs.filter((cost) => cost !== null).join(' '),
    spoken: say('bell:hot.spoken', { temperature: text }),
    answers: [
      answer(telling, 'done', { words: 'offHeat' }),
      answer(telling, 'false', { notes: [{ kind: 'retracted', body: { replaces: eventId } }] }),
    ],
  };
}

function coldCall(read: Read): Call | null {
  const { culture, readC, readAt, eventId, step, telling } = read;
  const wantedC = wanted(step);
  if (wantedC === null || readC > wantedC - COLD_BY_C) return null;
  const { say, write } = telling;
  const text = write.temperature(readC).text;
  const share = temperatureFactor(culture, readC) / temperatureFactor(culture, wantedC);
  return {
    id: `${step.id}.cold.${eventId}`,
    class: 'due',
    cause: `${step.id}.cold`,
    dueAt: readAt,
    isExact: true,
    seen: say('bell:cold.seen', { temperature: text }),
    what: say('bell:cold.what', { wanted: wantedText(read) }),
    by: null,
    cost: [say('bell:cold.cost', { share: Math.round(share * 10) }), delayText(read)].filter((one) => one !== null).join(' '), // prettier-ignore
    spoken: say('bell:cold.spoken', { temperature: text }),
    answers: dueAnswers(telling),
  };
}

const wanted = ({ set }: PlannedStep): number | null =>
  typeof set.toC === 'number' ? set.toC : typeof set.atC === 'number' ? set.atC : null;

function wantedText({ step, telling }: Read): string {
  const wantedC = wanted(step);
  return wantedC === null ? telling.say('bell:hot.plan') : telling.write.temperature(wantedC).text;
}

/** What the forecast has made of the reading: how much later the deciding step is. */
function delayText({ plan, forecast, before, telling }: Read): string | null {
  const later = delayMin({ plan, forecast, before });
  return later === null ? null : telling.say('bell:hot.delay', { minutes: telling.write.duration(later) });
}

function delayMin(input: Pick<CallsInput, 'plan' | 'forecast' | 'before'>): number | null {
  const { plan, forecast, before } = input;
  const decisive = forecast === null ? null : decisiveStep({ plan, forecast });
  if (decisive === null) return null;
  const endOf = (of: Forecast | null): number => of?.steps.find((one) => one.stepId === decisive.stepId)?.endMin.p50 ?? Number.NaN; // prettier-ignore
  const minutes = endOf(forecast) - endOf(before);
  return Number.isFinite(minutes) && minutes >= LEAST_DELAY_MIN ? minutes : null;
}
