/** An answer to "what would do it" in a maker's words; the same on screen and on the command line. */
import type { Adjustable, AdjustableUnit } from '../../make/adjustable.ts';
import type { Plan } from '../../make/plan.ts';
import type { Spread } from '../../numbers/stats.ts';
import { START, type Answer, type Obstacle, type Question, type Setting, type Wanted, type Way } from '../../forecast/question.ts'; // prettier-ignore
import type { Say } from '../words.ts';
import type { Writer } from '../written.ts';

/** What every sentence is told with. */
export interface Telling {
  readonly say: Say;
  readonly write: Writer;
  readonly plan: Plan;
  readonly adjustables: readonly Adjustable[];
  /** What the clock shows at minute zero of the plan as it stands, milliseconds UTC. */
  readonly zeroAt: number;
}

const MINUTE_MS = 60_000;

/** How likely, as a count that can be pictured. */
export function chanceText(probability: number, say: Say): string {
  const count = Math.round(10 * probability);
  if (probability < 0.05 || count === 0) return say('solve:chance.hardly');
  return count === 10 ? say('solve:chance.nearly') : say('solve:chance.in10', { count });
}

/** The name of a free input, as a sentence begins with it. */
export const nameOf = (id: string, { adjustables, say }: Telling): string =>
  adjustables.find((one) => one.id === id)?.name ?? say(`solve:names.${id}`);

/** A value of a free input, with its unit. */
export function valueText(input: { readonly id: string; readonly value: number } & Telling): string {
  const { id, value, write, adjustables, zeroAt } = input;
  if (id === START) return write.clock(zeroAt + value * MINUTE_MS);
  const unit = adjustables.find((one) => one.id === id)?.unit;
  return unit === undefined ? String(value) : unitText(value, unit, input);
}

/** "20 min to 2 h": how far a free input may go. */
export const rangeText = (
  input: { readonly id: string; readonly low: number; readonly high: number } & Telling,
): string => {
  const [low, high] = [input.low, input.high].map((value) => valueText({ ...input, value }));
  return input.say('solve:units.range', { low: sharedUnit(low ?? '', high ?? ''), high: high ?? '' });
};

function unitText(value: number, unit: AdjustableUnit, telling: Telling): string {
  const { say, write } = telling;
  const plain = (digits: number): string => write.number(value, Number.isInteger(value) ? 0 : digits);
  switch (unit) {
    case 'min':
      return write.duration(value);
    case '°C':
      return (Number.isInteger(value) ? write.degrees(value) : write.temperature(value)).text;
    case 'pH':
      return say('solve:units.pH', { number: write.pH(value).text });
    case '%':
      return write.percent(value, Number.isInteger(value) ? 0 : 2).text;
    case 'of the vat':
    case 'of the whey':
    case 'of the dose':
      return say(`solve:units.${unit}`, { percent: write.percent(100 * value).text });
    case 'L':
      return write.litres(value).text;
    case 'IMCU/L':
      return rennetText(value, telling);
    case 'kPa':
    case 'days':
    case 'kg/L':
    case 'g':
    case 'mm':
    case 'times':
      return `${plain(1)}\u202F${unit}`;
  }
}

/** Nobody pours units of activity: the amount that the plan would give. */
function rennetText(imcuPerL: number, { write, plan }: Telling): string {
  const amount = plan.amounts.find((one) => one.id === 'rennet');
  const aim = plan.make.doses.rennet?.imcuPerL.aim;
  if (amount === undefined || aim === undefined) return `${write.number(imcuPerL, 0)}\u202FIMCU/L`;
  const value = (amount.value * imcuPerL) / aim;
  return amount.unit === 'g' ? write.grams(value).text : write.millilitres(value).text;
}

/** A value of what is aimed at, with its unit. */
export function quantityText(quantity: Wanted['quantity'], value: number, { write, zeroAt }: Telling): string {
  switch (quantity) {
    case 'endMin':
      return write.clock(zeroAt + value * MINUTE_MS);
    case 'cheeseKg':
      return write.kilograms(value).text;
    case 'cheesePerMilkKgPerL':
      return write.grams(1000 * value).text;
    case 'pH':
      return write.pH(value).text;
    case 'saltPercent':
    case 'saltInMoisturePercent':
      return write.percent(value, 1).text;
    case 'moisturePercent':
    case 'fatInDryMatterPercent':
      return write.percent(value, Number.isInteger(value) ? 0 : 1).text;
  }
}

/** "salt in the moisture between 1.6 and 2.0 %", "done by 16:30". */
export function aimText(aim: Wanted, telling: Telling): string {
  const { say } = telling;
  const [low, high] = [aim.low, aim.high].map((end) => (Number.isFinite(end) ? quantityText(aim.quantity, end, telling) : '')); // prettier-ignore
  const form = low === '' ? 'atMost' : high === '' ? 'atLeast' : 'between';
  const key = aim.quantity === 'endMin' ? `end${form[0]?.toUpperCase()}${form.slice(1)}` : form;
  const what = say(`solve:quantity.${aim.quantity}`);
  return say(`solve:meets.${key}`, { what, low: sharedUnit(low ?? '', high ?? ''), high: high ?? '' });
}

/** The unit once where both ends have it: "1.6 and 2.0 %". */
function sharedUnit(low: string, high: string): string {
  const unit = /\u202F\D+$/.exec(high)?.[0];
  return unit !== undefined && low.endsWith(unit) ? low.slice(0, -unit.length) : low;
}

const joined = (parts: readonly string[], key: string, say: Say): string =>
  parts.length < 2 ? (parts[0] ?? '') : parts.reduce((first, second) => say(key, { first, second: lower(second) }));

/** All aims of a question as one clause. */
export const aimsText = (aims: readonly Wanted[], telling: Telling): string =>
  joined(aims.map((aim) => aimText(aim, telling)), 'solve:meets.and', telling.say); // prettier-ignore

/** "Brine for 34 min instead of 45 min", every changed thing, and said where it stands at the end of its range. */
export function changeText(way: Way, telling: Telling): string {
  const { say } = telling;
  const changed = way.settings.filter((one) => one.isChanged);
  if (changed.length === 0) return say('solve:change.none');
  return joined(changed.map((one) => settingText(one, telling)), 'solve:change.join', say); // prettier-ignore
}

function settingText(setting: Setting, telling: Telling): string {
  const { say, adjustables } = telling;
  const { id, atBound } = setting;
  const value = valueText({ id, value: setting.value, ...telling });
  const isExpected = id !== START && adjustables.find((one) => one.id === id)?.now === null;
  const was = valueText({ id, value: setting.was, ...telling });
  const line = say('solve:change.line', { name: nameOf(id, telling), value, was: isExpected ? say('solve:units.about', { value: was }) : was }); // prettier-ignore
  return atBound === null ? line : `${line} (${say('solve:change.atBound')})`;
}

/** What a way brings: its changes, the chance, the aims. */
export const wayText = (way: Way, question: Question, telling: Telling): string =>
  telling.say('solve:way.brings', { change: changeText(way, telling), chance: chanceText(way.probability, telling.say), meets: aimsText(question.aims, telling) }); // prettier-ignore

/** What a way costs: when it is done and how much cheese it gives, against the plan as it stands. */
export function costText(input: { readonly way: Way; readonly asItStands: Way } & Telling): string {
  const { way, asItStands, say, write } = input;
  const end = quantityText('endMin', way.endMin.p50, input);
  const endWas = quantityText('endMin', asItStands.endMin.p50, input);
  const cheese = write.kilograms(way.cheeseKg.p50).text;
  const cheeseWas = write.kilograms(asItStands.cheeseKg.p50).text;
  const isSame = [Math.abs(way.endMin.p50 - asItStands.endMin.p50) < 3, Math.abs(way.cheeseKg.p50 / asItStands.cheeseKg.p50 - 1) < 0.01]; // prettier-ignore
  const key = isSame[0] === true ? (isSame[1] === true ? 'cost' : 'costCheese') : isSame[1] === true ? 'costEnd' : 'costWas'; // prettier-ignore
  return say(`solve:way.${key}`, { end, endWas, cheese, cheeseWas });
}

/** Where each aim comes to under a way: the middle, and nine in ten. */
export function comesText(aim: Wanted, spread: Spread, telling: Telling): string {
  const [about, low, high] = [spread.p50, spread.p5, spread.p95].map((value) => quantityText(aim.quantity, value, telling)); // prettier-ignore
  const what = telling.say(`solve:quantity.${aim.quantity}`);
  const key = aim.quantity === 'endMin' ? 'comesEnd' : 'comes';
  return capital(telling.say(`solve:way.${key}`, { what, about: about ?? '', low: sharedUnit(low ?? '', high ?? ''), high: high ?? '' })); // prettier-ignore
}

/** The verdict in one or two sentences. */
export function verdictText(answer: Answer, question: Question, telling: Telling): string {
  const { say } = telling;
  const chance = chanceText(answer.best.probability, say);
  const meets = aimsText(question.aims, telling);
  if (answer.verdict === 'as-it-stands') return say('solve:verdict.as-it-stands', { chance, meets });
  const isChanged = answer.best.settings.some((one) => one.isChanged);
  if (answer.verdict === 'reached') return wayText(answer.best, question, telling);
  const wanted = chanceText(answer.wanted, say);
  return isChanged ? `${say('solve:verdict.not-reached', { wanted })} ${wayText(answer.best, question, telling)}` : say('solve:verdict.nothing', { wanted, chance }); // prettier-ignore
}

/** Which aim stands in the way, and what shows it. */
export function obstacleText(obstacle: Obstacle, question: Question, telling: Telling): string {
  const aim = question.aims[obstacle.aim];
  const what = aim === undefined ? '' : aimText(aim, telling);
  return telling.say(`solve:obstacle.${obstacle.kind}`, { what, chance: chanceText(obstacle.probability, telling.say), change: lower(changeText(obstacle.way, telling)) }); // prettier-ignore
}

/** Aims that nothing free moves, one sentence each. */
export const unmovedTexts = (answer: Answer, question: Question, { say }: Telling): string[] =>
  answer.unmoved.flatMap((index) => {
    const aim = question.aims[index];
    return aim === undefined ? [] : [say('solve:unmoved', { what: say(`solve:quantity.${aim.quantity}`) })];
  });

/** Inside a sentence a name begins small; "pH" stays. */
const lower = (text: string): string =>
  /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
