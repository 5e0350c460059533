/** Advice in words: what each choice is, what it would bring in numbers, and what it risks. Screens and command line agree. */
import type { Advice, Choice, Outside } from '../forecast/advise.ts';
import type { AimChance, ChoiceForecast } from '../forecast/choice-forecast.ts';
import { mishapNamed } from '../make/mishaps.ts';
import { chanceText, clock, whenText, type AdviceTelling } from './chance-told.ts';
import type { Writer } from './written.ts';

/** One choice as it is read. */
export interface ChoiceTold {
  readonly id: string;
  readonly title: string;
  /** Finish, with its span. */
  readonly done: string;
  /** The aim that decides, then others that the choice moves. */
  readonly chances: readonly string[];
  readonly becomes: string;
  readonly risks: readonly string[];
}

const MOVED = 0.1; // an aim is worth a line where its chance moves by one in ten; our own choice

/** How it stands: going on as planned. */
export function goOnTold(advice: Advice, telling: AdviceTelling): Omit<ChoiceTold, 'id'> {
  return { title: telling.say('advice:asStands.title'), ...numbersTold(advice.goOn, null, telling), risks: [] };
}

/** One choice, against going on. */
export function choiceTold(
  choice: Choice,
  advice: Advice,
  mishapId: string | null,
  telling: AdviceTelling,
): ChoiceTold {
  const { say } = telling;
  const numbers = numbersTold(choice.forecast, advice.goOn, telling);
  // Another make brings its own cautions, each told at its own step.
  const isSameMake = choice.forecast.makeId === advice.goOn.makeId;
  const known = new Set(advice.goOn.findings.map(({ code }) => code));
  const added = choice.forecast.findings.filter(({ code }) => isSameMake && !known.has(code));
  return {
    id: choice.id,
    title: titleOf(choice, mishapId, telling),
    ...numbers,
    chances: choice.isSame ? [...numbers.chances, say('advice:same')] : numbers.chances,
    risks: [
      ...choice.risks.map((risk) => say(`advice:risk.${risk}`)),
      ...added.map(({ code, fields }) => say(`findings:${code}`, fields)),
    ],
  };
}

/** What a mishap comes to: the finish and the deciding aim, against what they were before it. */
export function meansTold(now: ChoiceForecast, before: ChoiceForecast | null, telling: AdviceTelling): string {
  const { say } = telling;
  const at = whenText(now.endMin.p50, telling);
  const was = before === null ? at : whenText(before.endMin.p50, telling);
  const isLater = before !== null && Math.abs(now.endMin.p50 - before.endMin.p50) >= WORTH_MIN;
  const done = say(isLater ? 'advice:means.instead' : 'advice:means.asBefore', { at, was });
  const aim = now.aims.find(({ index }) => index === now.aim);
  const then = before?.aims.find(({ quantity }) => quantity === aim?.quantity);
  return aim === undefined ? done : `${done} ${chanceLine(aim, then, telling)}`;
}

const WORTH_MIN = 5; // no maker acts on less; our own choice

function numbersTold(
  forecast: ChoiceForecast,
  goOn: ChoiceForecast | null,
  telling: AdviceTelling,
): Pick<ChoiceTold, 'done' | 'chances' | 'becomes'> {
  const { say, write } = telling;
  const isSameCheese = goOn?.makeId === forecast.makeId;
  const deciding = forecast.aims[forecast.aims.findIndex((aim) => aim.index === forecast.aim)];
  const others = forecast.aims.filter((aim) => {
    if (aim === deciding) return false;
    if (goOn === null) return false;
    const was = goOn.aims.find(({ quantity }) => quantity === aim.quantity)?.probability ?? aim.probability;
    return isSameCheese ? Math.abs(aim.probability - was) >= MOVED : aim.quantity === 'moisturePercent';
  });
  const was = (aim: AimChance): AimChance | undefined => (isSameCheese ? goOn.aims.find(({ quantity }) => quantity === aim.quantity) : undefined); // prettier-ignore
  return {
    done: doneText(forecast, telling),
    chances: [...(deciding === undefined ? [] : [deciding]), ...others].map((aim) =>
      chanceLine(aim, was(aim), telling),
    ),
    becomes: say('advice:becomes', {
      make: forecast.makeName,
      weight: write.kilograms(forecast.cheeseKg.p50).text,
      moisture: write.percent(forecast.moisturePercent.p50).text,
    }),
  };
}

function doneText({ endMin }: ChoiceForecast, telling: AdviceTelling): string {
  const { say } = telling;
  if (!Number.isFinite(endMin.p95)) return say('advice:done.never');
  const at = whenText(endMin.p50, telling);
  if (endMin.p95 - endMin.p5 < 2) return say('advice:done.at', { at });
  return say('advice:done.span', {
    at,
    from: clock(endMin.p5, telling),
    to: whenText(endMin.p95, telling, endMin.p50),
  });
}

function chanceLine(aim: AimChance, was: AimChance | undefined, telling: AdviceTelling): string {
  const { say } = telling;
  const digits = aim.quantity === 'pH' || aim.quantity === 'cheesePerMilkKgPerL' ? 2 : aim.quantity.startsWith('salt') ? 1 : 0; // prettier-ignore
  const written = (value: number): string =>
    telling.write.number(value, digits === 2 && aim.quantity === 'pH' ? 1 : digits);
  const values = { aim: say(`advice:aim.${aim.quantity}`, { low: written(aim.low), high: written(aim.high) }), chance: chanceText(aim.probability, say) }; // prettier-ignore
  const moved = was !== undefined && Math.abs(was.probability - aim.probability) >= MOVED;
  return moved
    ? capital(say('advice:chance.notWas', { ...values, was: chanceText(was.probability, say) }))
    : capital(say('advice:chance.aim', values));
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function titleOf(choice: Choice, mishapId: string | null, telling: AdviceTelling): string {
  const { say, write } = telling;
  const { fields, kind } = choice;
  const number = (name: string): number => (typeof fields[name] === 'number' ? fields[name] : Number.NaN);
  const word = (name: string): string => String(fields[name] ?? '');
  if (choice.says !== undefined && mishapId !== null) {
    const named = mishapNamed(mishapId)?.choices.find(({ id }) => id === choice.says);
    const degrees = Object.entries(named?.degreesC ?? {}).map(([name, temperatureC]) => [name, write.degrees(temperatureC).text] as const); // prettier-ignore
    return say(`vat:mishap.${mishapId}.${choice.says}`, { ...Object.fromEntries(degrees), ...madeUp(choice, telling) });
  }
  switch (kind) {
    case 'set':
      return say('advice:choice.set', { what: word('what'), to: settingText(number('to'), word('unit'), write), was: settingText(number('was'), word('unit'), write) }); // prettier-ignore
    case 'wait':
      return say('advice:choice.wait', { step: word('step'), minutes: write.duration(number('minutes')), until: whenText(number('untilMin'), telling) }); // prettier-ignore
    case 'test':
      return say(`advice:choice.test.${word('judgement')}`, { passes: chanceText(number('passes'), say) });
    case 'chill':
      return say(`advice:choice.chill.${word('when')}`, { at: write.degrees(number('atC')).text });
    default:
      return say(`advice:choice.${kind}`, { step: word('step'), make: word('make') });
  }
}

/** What a mishap's own words name besides: a temperature, minutes, an ingredient with its share. */
function madeUp({ fields }: Choice, { say, write }: AdviceTelling): Record<string, string | number> {
  const { toC, minutes, ingredient, fractionOfPlan } = fields;
  return {
    ...(typeof toC === 'number' ? { wanted: write.degrees(toC).text } : {}),
    ...(typeof minutes === 'number' ? { minutes: write.duration(minutes) } : {}),
    ...(typeof ingredient === 'string' ? { ingredient: say(`record:ingredient.${ingredient}`) } : {}),
    ...(typeof fractionOfPlan === 'number' ? { percent: Math.round(fractionOfPlan * 100) } : {}),
  };
}

/** A figure of the make as it is set. */
function settingText(value: number, unit: string, write: Writer): string {
  switch (unit) {
    case '°C':
      return (Number.isInteger(value) ? write.degrees : write.temperature)(value).text;
    case 'min':
      return write.duration(value);
    case 'of the vat':
    case 'of the whey':
      return `${write.percent(value * 100).text} ${unit}`;
    case '%':
      return write.percent(value).text;
    case 'pH':
      return write.pH(value).number;
    default:
      return `${write.number(value, Number.isInteger(value) ? 0 : 1)}\u202F${unit}`;
  }
}

/** Why nothing is reckoned, and what is known all the same. */
export function outsideTold(
  { outside }: Outside,
  { say, write }: AdviceTelling,
): { readonly text: string; readonly known: string } {
  // prettier-ignore
  const { field, value, low, high } = outside;
  const written = (each: number): string =>
    field === 'temperatureC' ? write.degrees(each).text : write.duration(each);
  return {
    text: say(`advice:outside.${field}`, { value: written(value), low: written(low), high: written(high) }),
    known: say(`advice:outside.known.${field === 'minutes' ? 'long' : value > high ? 'hot' : 'cold'}`),
  };
}
