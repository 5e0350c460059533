/** A step as paper tells it: its figures by what the step sets, whatever the cheese. */
import { isMadeAhead, readyAmount } from '../../forecast/ready-amount.ts';
import type { Forecast } from '../../forecast/forecast.ts';
import type { Amount, Plan, PlannedStep } from '../../make/plan.ts';
import { sentenceInUnits } from '../../make/sentence.ts';
import type { Say } from '../words.ts';
import type { Writer } from '../written.ts';
import type { BothUnits } from '../text/both-units.ts';
import { untilText } from '../text/clock-text.ts';

/** Who reads the sheet: words, and figures in their own units alone or in both. */
export interface Told {
  readonly say: Say;
  readonly write: Writer;
  readonly both: BothUnits;
  /** Both unit systems beside each other; else the reader's own alone. */
  readonly isInBoth: boolean;
}

/** A name and a figure that belong together. */
export interface Figured {
  readonly name: string;
  readonly value: string;
}

export const degrees = ({ write, both, isInBoth }: Told, temperatureC: number, digits = 0): string =>
  isInBoth ? both.temperature(temperatureC, digits).text : (digits === 0 ? write.degrees : write.temperature)(temperatureC).text; // prettier-ignore
export const litres = ({ write, both, isInBoth }: Told, volumeL: number): string =>
  isInBoth ? both.volume(volumeL).text : write.litres(volumeL).text;
export const kilograms = ({ write, both, isInBoth }: Told, massKg: number): string =>
  isInBoth ? both.mass(massKg).text : write.kilograms(massKg).text;

/** A sentence of the make in the reader's own units; in metric where both stand side by side. */
export const sentence = ({ write, isInBoth }: Told, text: string): string =>
  sentenceInUnits({ text, units: isInBoth ? 'metric' : write.units });

/** What a step sets: figures in the unit that the setting's name ends in, each with its words. */
export function settingsOf(step: PlannedStep, told: Told): readonly Figured[] {
  return Object.entries(step.set).flatMap(([name, value]): Figured[] => {
    if (typeof value !== 'number' || UNTOLD.has(name) || (name === 'atC' && BY_THE_WAY.has(step.verb))) return [];
    return [{ name: told.say(`paper:set.${name}`), value: settingText(name, value, told) }];
  });
}

/** Where the pot only stays as warm as it is, its warmth is no figure to work by. */
const BY_THE_WAY: ReadonlySet<string> = new Set(['add', 'cut', 'heal', 'settle', 'drawWhey']);

/** Shares and factors that say nothing at the pot without the amount that they give. */
const UNTOLD: ReadonlySet<string> = new Set([
  'fractionOfVat',
  'fractionOfWhey',
  'waterFraction',
  'waterPerCurd',
  'slenderness',
]);

function settingText(name: string, value: number, told: Told): string {
  const { write } = told;
  if (name.endsWith('C')) return degrees(told, value, Number.isInteger(value) ? 0 : 1);
  if (name.endsWith('Mm')) return millimetres(told, value);
  if (name.endsWith('G')) return kilograms(told, value / 1000);
  if (name.endsWith('Kg')) return kilograms(told, value);
  if (name.endsWith('L')) return litres(told, value);
  if (name.endsWith('Percent')) return write.percent(value, Number.isInteger(value) ? 0 : 1).text;
  if (/Minutes$|Min$/.test(name)) return write.duration(value);
  if (name.endsWith('Days')) return told.say('paper:days', { count: value });
  if (name.endsWith('Hours')) return write.duration(value * 60);
  if (name.endsWith('KPa')) return `${write.number(value, value < 10 ? 1 : 0)}\u202FkPa`;
  return write.number(value, Number.isInteger(value) ? 0 : 2);
}

function millimetres({ write, both, isInBoth }: Told, lengthMm: number): string {
  const metric = `${write.number(lengthMm, Number.isInteger(lengthMm) ? 0 : 1)}\u202Fmm`;
  if (isInBoth) return `${metric} (${both.units === 'us' ? both.depth(lengthMm / 10).first : both.depth(lengthMm / 10).second})`;
  return write.units === 'us' ? write.depth(lengthMm / 10).text : metric;
} // prettier-ignore

/** The amounts that a step takes, ready to weigh, with how a kitchen takes them. */
export function amountsAt(input: {
  readonly step: Pick<PlannedStep, 'id'>;
  readonly plan: Plan;
  readonly forecast: Pick<Forecast, 'needs'> | null;
  readonly told: Told;
}): readonly Figured[] {
  const { step, plan, told } = input;
  return plan.amounts
    .filter((amount) => amount.stepId === step.id)
    .map((amount) => ({ name: told.say(`plan:amounts.${amount.id}`), value: amountText({ ...input, amount }) }));
}

/** One amount: weighed or measured first, shares and drops beside it. */
export function amountText(input: {
  readonly amount: Amount;
  readonly forecast: Pick<Forecast, 'needs'> | null;
  readonly told: Told;
}): string {
  const { amount, told } = input;
  const { value } = isMadeAhead(amount) ? readyAmount(input) : amount;
  const figure = quantityText({ unit: amount.unit, value, also: amount.also, told });
  const spoken = amount.kitchen?.words ?? amount.spoon?.words;
  return spoken === undefined ? figure : `${figure}, ${spoken}`;
}

/** A quantity in words and units: packets as grams where a packet has been weighed. */
export function quantityText(input: {
  readonly unit: Amount['unit'];
  readonly value: number;
  readonly also?: Amount['also'];
  readonly told: Told;
}): string {
  const { unit, value, also, told } = input;
  switch (unit) {
    case 'g':
      return kilograms(told, value / 1000);
    case 'kg':
      return kilograms(told, value);
    case 'mL':
      return litres(told, value / 1000);
    case 'L':
      return litres(told, value);
    case 'drops':
      return told.say('plan-text:amounts.drops', { count: Math.round(value) });
    case 'packets': {
      const grams = also?.find((one) => one.unit === 'g');
      if (grams !== undefined) return kilograms(told, grams.value / 1000);
      return told.say('plan-text:amounts.packets', { count: Math.round(value * 100) / 100 });
    }
  }
}

/**
 * What ends a step, as a sentence: "until …", or "for …" where only the clock ends it.
 * @param input.isMetered whether a pH can be read; else no pH is asked for
 */
export function endText(input: { readonly step: PlannedStep; readonly plan: Plan; readonly isMetered: boolean; readonly told: Told }): string {
  const { step, plan, isMetered, told } = input;
  const of = step.until.of.filter(({ kind }) => isMetered || kind !== 'pH');
  const until = untilText({ step: { ...step, until: { ...step.until, of } }, sheet: { say: told.say, write: told.write, plan, both: told.isInBoth ? told.both : oneUnit(told.both) } });
  if (until === '') return '';
  return told.say(of.every(({ kind }) => kind === 'time') ? 'paper:for' : 'paper:until', { until });
} // prettier-ignore

/** One unit system alone in sentences that know two. */
function oneUnit(both: BothUnits): BothUnits {
  const first = (text: ReturnType<BothUnits['mass']>) => ({ ...text, text: text.first });
  return {
    units: both.units,
    temperature: (temperatureC, digits) => first(both.temperature(temperatureC, digits)),
    volume: (volumeL) => first(both.volume(volumeL)),
    mass: (massKg) => first(both.mass(massKg)),
    depth: (depthCm) => first(both.depth(depthCm)),
  };
}

/** The steps of the day, up to the last one before a night or an ageing room. */
export function stepsOfDay(input: { readonly plan: Plan; readonly lastStepId: string | undefined }): Plan['steps'] {
  const { steps } = input.plan;
  const last = steps.findIndex(({ id }) => id === input.lastStepId);
  return last === -1 ? steps : steps.slice(0, last + 1);
}
