import type { z } from 'zod';
import type { BatchBody, JsonObject } from '../../../record/event.ts';
import { isAnswer, NOBODY } from '../../../record/alarm.ts';
import type { BatchRecord, RecordEntry } from '../../../record/batch-record.ts';
import type { Plan } from '../../../make/plan.ts';
import { displayValue, QUANTITIES, type QuantityName } from '../../../make/quantity.ts';
import { batchBodies } from '../../../record/event.ts';
import type { Telling } from '../vat/said.ts';
import { PATH_ITEM } from '../vat/short-list.ts';

/** One line of the record: when, what, and everything it said before it was set right. */
export interface RecordLine {
  readonly eventId: string;
  readonly at: number;
  readonly clock: string;
  readonly what: string;
  readonly person: string;
  readonly was: readonly { readonly what: string; readonly clock: string; readonly note: string }[];
  readonly retracted: string | null;
  /** The number in it that may be set right; null where there is none. */
  readonly number: { readonly quantity: QuantityName; readonly value: number } | null;
  readonly kind: string;
  readonly body: JsonObject;
}

/** Kinds that are machinery, not something that happened at the vat. */
const SILENT: ReadonlySet<string> = new Set(['planFrozen', 'timerSet']);
/** An answer to an alarm that had to be answered is part of what happened; that a due thing was heard is not. */
const isSilent = ({ kind, body }: RecordEntry): boolean => SILENT.has(kind) || (kind === 'alarmAnswered' && body['seen'] === undefined); // prettier-ignore

/** That nobody answered is said once, whichever devices noted it, and not at all where somebody has. */
function isSaidBetter({ kind, body, eventId }: RecordEntry, { alarms }: BatchRecord): boolean {
  if (kind !== 'alarmAnswered' || body['answer'] !== NOBODY) return false;
  const same = alarms.filter((one) => one.alarmId === body['alarmId']);
  return same.some(isAnswer) || (same[0] !== undefined && same[0].eventId !== eventId);
}

/** Every entry as a line in time order, corrections and retractions in sight. */
export function recordLines(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly telling: Telling;
}): readonly RecordLine[] {
  const { record, telling } = input;
  const { say, write } = telling;
  return record.entries
    .filter((entry) => !isSilent(entry) && !isSaidBetter(entry, record))
    .map((entry) => ({
      eventId: entry.eventId,
      at: entry.at,
      clock: write.clock(entry.at),
      what: whatOf({ ...input, kind: entry.kind, body: entry.body }),
      person: entry.person,
      was: entry.was.map((earlier) => ({
        what: whatOf({ ...input, kind: earlier.kind, body: earlier.body }),
        clock: write.clock(earlier.at),
        note: say(earlier.because === undefined ? 'record:wasAt' : 'record:wasBecause', { at: write.clock(earlier.replacedAt), because: earlier.because ?? '' }), // prettier-ignore
      })),
      retracted: entry.retracted === null ? null : say('record:retracted', { at: write.clock(entry.retracted.at) }),
      number: numberOf(entry),
      kind: entry.kind,
      body: entry.body,
    }));
}

function numberOf(entry: RecordEntry): RecordLine['number'] {
  if (!entry.isUnderstood) return null;
  if (entry.kind === 'reading') {
    const { quantity, value } = batchBodies.reading.parse(entry.body);
    return { quantity, value };
  }
  if (entry.kind === 'weighed') return { quantity: 'massKg', value: batchBodies.weighed.parse(entry.body).massKg };
  return null;
}

/** The same body with another number in it. */
export function withNumber(line: RecordLine, value: number): JsonObject {
  return line.kind === 'weighed' ? { ...line.body, massKg: value } : { ...line.body, value };
}

interface Asked {
  readonly plan: Plan;
  readonly telling: Telling;
  readonly kind: string;
  readonly body: JsonObject;
}

type Teller = (body: JsonObject, asked: Asked) => string | null;

/** Words for one kind, given its body once that was read. */
function teller<Body>(schema: z.ZodType<Body>, words: (body: Body, asked: Asked) => string): Teller {
  return (body, asked) => {
    const parsed = schema.safeParse(body);
    return parsed.success ? words(parsed.data, asked).trim() : null;
  };
}

/** How each kind is told; a kind that is not here comes from a newer version. */
const TELLERS: Readonly<Record<string, Teller>> = {
  batchOpened: teller(batchBodies.batchOpened, (body, { telling }) =>
    telling.say('record:line.batchOpened', {
      name: body.name,
      lot: body.lotCode,
      start: telling.write.clock(body.zeroAt),
    }),
  ),
  prepared: teller(batchBodies.prepared, (body, asked) => preparedLine(body, asked)),
  stepStarted: teller(batchBodies.stepStarted, (body, asked) =>
    asked.telling.say('record:line.stepStarted', { step: stepName(asked, body.stepId) }),
  ),
  stepEnded: teller(batchBodies.stepEnded, (body, asked) => {
    const step = asked.plan.steps.find((one) => one.id === body.stepId);
    const said = body.said === undefined || body.said === '' ? (step?.done ?? body.stepId) : body.said;
    return asked.telling.say('record:line.stepEnded', { step: step?.name ?? body.stepId, said });
  }),
  added: teller(batchBodies.added, (body, { telling }) =>
    telling.say(body.fractionOfPlan === 1 ? 'record:line.added' : 'record:line.addedPart', {
      what: telling.say(`record:ingredient.${body.ingredient}`),
      amount: amountText(telling, body.amount, body.unit),
      percent: Math.round(body.fractionOfPlan * 100),
    }),
  ),
  reading: teller(batchBodies.reading, (body, { telling }) => telling.say('record:line.reading', { quantity: telling.say(`record:quantity.${body.quantity}`), value: valueText({ telling, quantity: body.quantity, value: body.value }), where: telling.say(`record:sample.${body.sample}`) })), // prettier-ignore
  judged: teller(batchBodies.judged, (body, { telling }) => telling.say('record:line.judged', { judgement: telling.say(`record:judgement.${body.judgement}`), grade: telling.say(body.grade === 'not-sure' ? 'vat:judge.notSure.name' : `vat:judge.${body.judgement}.${body.grade}.name`) })), // prettier-ignore
  choiceTaken: teller(batchBodies.choiceTaken, (body, { telling }) =>
    telling.say('record:line.choiceTaken', { choice: body.choice, because: body.because }),
  ),
  mishap: teller(batchBodies.mishap, (body, { telling }) => {
    const what = telling.say(`vat:mishap.${body.what}.name`);
    const how = mishapHow(body, telling);
    return how === null ? telling.say('record:line.mishap', { what }) : telling.say('record:line.mishapHow', { what, how }); // prettier-ignore
  }),
  weighed: teller(batchBodies.weighed, (body, { telling }) => telling.say('record:line.weighed', { what: telling.say(`record:weighed.${body.what}`), weight: telling.write.kilograms(body.massKg).text })), // prettier-ignore
  noted: teller(batchBodies.noted, (body, { telling }) => telling.say('record:line.noted', { text: body.text })),
  labelled: teller(batchBodies.labelled, (body, { telling }) =>
    telling.say('record:line.labelled', {
      name: body.name,
      lot: body.lotCode,
      day: body.bestBefore ?? body.useBy ?? '',
      context: body.bestBefore !== undefined ? 'bestBefore' : body.useBy !== undefined ? 'useBy' : '',
    }),
  ),
  tasted: teller(batchBodies.tasted, (body, { telling }) => telling.say('record:line.tasted', { words: body.words })),
  batchFinished: teller(batchBodies.batchFinished, (body, { telling }) =>
    telling.say('record:line.batchFinished', { note: body.note ?? '' }),
  ),
  alarmAnswered: teller(batchBodies.alarmAnswered, (body, { telling }) =>
    telling.say(isAnswer(body) ? 'bell:record.answered' : 'bell:record.nobody', {
      what: body.seen ?? '',
      at: telling.write.clock(body.dueAt ?? 0),
      answer: body.answer,
    }),
  ),
  joined: teller(batchBodies.joined, ({ way, name, massKg }, { telling }) =>
    telling.say(`record:line.joined${way === 'gave' ? 'Into' : 'From'}${massKg === undefined ? '' : 'Kg'}`, {
      name,
      weight: massKg === undefined ? '' : telling.write.kilograms(massKg).text,
    }),
  ),
  answered: teller(batchBodies.answered, (body, { telling }) => {
    const [, fault] = /^fault\.(.+)$/.exec(body.question) ?? [];
    const question = fault === undefined ? telling.say(`explain:question.${body.question}`) : `${telling.say(`explain:fault.${fault}`)}.`; // prettier-ignore
    return telling.say('record:line.answered', { question, answer: telling.say(`explain:question.${body.answer}`) });
  }),
  nextTime: teller(batchBodies.nextTime, (body, { telling }) =>
    body.cause === ''
      ? telling.say('record:line.nextTimeNothing')
      : telling.say('record:line.nextTime', { change: telling.say(`explain:cause.${body.cause}.try`) }),
  ),
};

/** What was told of a mishap besides its name. */
function mishapHow(
  { temperatureC, minutes, ingredient, fractionOfPlan }: BatchBody<'mishap'>,
  { say, write }: Telling,
): string | null {
  // prettier-ignore
  if (ingredient !== undefined) {
    const values = { ingredient: say(`record:ingredient.${ingredient}`), percent: Math.round((fractionOfPlan ?? 0) * 100) };
    return say(fractionOfPlan === undefined ? 'record:mishap.dose' : 'record:mishap.doseShare', values);
  }
  if (minutes === undefined) return temperatureC === undefined ? null : write.degrees(temperatureC).text;
  if (temperatureC === undefined) return say('record:mishap.minutes', { minutes: write.duration(minutes) });
  return say('record:mishap.temperatureMinutes', { temperature: write.degrees(temperatureC).text, minutes: write.duration(minutes) }); // prettier-ignore
}

function whatOf(asked: Asked): string {
  const { kind, body, telling } = asked;
  return TELLERS[kind]?.(body, asked) ?? telling.say('record:line.unknown', { kind });
}

function amountText(telling: Telling, amount: number, unit: string): string {
  const digits = amount % 1 === 0 ? 0 : amount < 10 ? 2 : 1;
  const counted = unit === 'packets' || unit === 'drops';
  return `${telling.write.number(amount, digits)}\u202F${counted ? telling.say(`vat:unit.${unit}`, { count: amount }) : unit}`;
}

const stepName = ({ plan }: Asked, stepId: string): string =>
  plan.steps.find((step) => step.id === stepId)?.name ?? stepId;

function preparedLine(body: BatchBody<'prepared'>, { plan, telling }: Asked): string {
  if (body.item === PATH_ITEM)
    return telling.say(body.unit === 'full' ? 'vat:pause.paths.full' : 'vat:pause.paths.short');
  const { say, write } = telling;
  const [from = '', item = ''] = body.item.split('.');
  const step = plan.steps.find((one) => one.id === from);
  const preparation = step?.prepare.find((one) => one.id === item);
  const what =
    preparation?.what ??
    (from === 'amount' ? say(`vat:ready.amount.${item}`, { kitchen: '' }) : say(`vat:ready.${from}.${item}`));
  if (body.value !== undefined)
    return say('record:line.preparedValue', { what, value: `${write.number(body.value, 1)}\u202F${body.unit ?? ''}` });
  return say(body.unit === undefined ? 'record:line.prepared' : 'record:line.leftOut', { what: what.trim() });
}

/** A value in the reader's unit. */
export function valueText(input: {
  readonly telling: Telling;
  readonly quantity: QuantityName;
  readonly value: number;
}): string {
  const { telling, quantity, value } = input;
  if (quantity === 'massKg') return telling.write.kilograms(value).text;
  const shown = displayValue({ quantity, value, units: telling.write.units });
  const decimals = quantity === 'flocculationMin' ? 1 : shown.decimals;
  const number = telling.write.number(quantity === 'flocculationMin' ? value : shown.value, decimals);
  return QUANTITIES[quantity].symbol === '' ? number : `${number}\u202F${shown.symbol}`;
}
