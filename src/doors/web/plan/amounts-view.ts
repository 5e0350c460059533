import type { Forecast } from '../../../forecast/forecast.ts';
import { isMadeAhead, neededOf, readyAmount, type ReadyAmount } from '../../../forecast/ready-amount.ts';
import { bothUnits } from '../../../exchange/text/both-units.ts';
import type { Amount, Plan } from '../../../make/plan.ts';
import { spoonBeside } from '../../../make/spoon-beside.ts';
import type { Written } from '../../../exchange/written.ts';
import { amountWritten, readyWritten } from './amount-written.ts';
import { nineInTen, plainly, stepFor, type Telling } from './spans.ts';

/** One amount as it is weighed, and beneath it how a kitchen takes it and how sure it is. */
export interface AmountRow {
  readonly id: string;
  readonly name: string;
  readonly written: Written;
  /** The same in the other system of units; null where that says nothing more. */
  readonly other: string | null;
  /** Share of a packet, drops, a spoon with its error; null where the weighed amount is all there is. */
  readonly kitchen: string | null;
  /** The likely range, where strength or yield is not known. */
  readonly span: string | null;
  /** What it rests on that nobody has read; null where all is said. */
  readonly hint: string | null;
  /** Name of the step that takes it. */
  readonly forStep: string;
  /** It will be told again once the curd is weighed. */
  readonly waitsForCurd: boolean;
}

/** Every amount of the plan in the order of the work; the milk itself is in the sentence above. */
export function amountRows(input: { readonly plan: Plan; readonly forecast: Forecast | null } & Telling): AmountRow[] {
  const { plan, forecast, say } = input;
  const order = new Map(plan.steps.map((step, index) => [step.id, index]));
  const litres = input.write.litres(plan.setup.culture.packetTreatsL).text;
  const nameOf = new Map(plan.steps.map((step) => [step.id, step.name]));
  return plan.amounts
    .filter((amount) => amount.id !== 'milk')
    .map((amount) => ({ amount, at: order.get(amount.stepId) ?? Infinity }))
    .sort((a, b) => a.at - b.at)
    .map(({ amount }) => ({
      id: `${amount.stepId}-${amount.id}`,
      name: say(`plan:amounts.${amount.id}`),
      written: weighed(amount, forecast, input),
      other: otherUnits(readyAmount({ amount, forecast }), input),
      kitchen: kitchenText(amount, input),
      span: spanText(amount, forecast, input),
      hint: hintOf(amount, litres, input),
      forStep: nameOf.get(amount.stepId) ?? '',
      waitsForCurd: amount.dependsOnCurd,
    }));
}

/** Grams before packets where the packet's weight is known; of what is made ahead, enough to be sure of it. */
function weighed(amount: Amount, forecast: Forecast | null, telling: Telling): Written {
  const grams = amount.unit === 'packets' ? amount.also?.find((other) => other.unit === 'g') : undefined;
  if (grams !== undefined) return amountWritten({ unit: 'g', value: grams.value }, telling);
  return readyWritten(readyAmount({ amount, forecast }), telling);
}

const OUNCES_FROM_ML = 30; // below two tablespoons a jug of either kind says millilitres: our own choice

/** Litres and kilos in gallons and pounds, or the other way; grams are grams on every scale. */
function otherUnits({ unit, value }: Pick<ReadyAmount, 'unit' | 'value'>, { write }: Telling): string | null {
  const both = bothUnits(write.units, write.language);
  if (unit === 'kg') return both.mass(value).second;
  if (unit === 'L') return both.volume(value).second;
  return unit === 'mL' && value >= OUNCES_FROM_ML ? both.volume(value / 1000).second : null;
}

/** What it rests on that is not known yet: a packet's label, the weight of the curd. */
function hintOf(amount: Amount, litres: string, { say }: Telling): string | null {
  if (amount.id === 'dry-salt') return say('buying:hint.dry-salt');
  return amount.restsOn === undefined ? null : say(`plan:amounts.${amount.restsOn}`, { litres });
}

function kitchenText(amount: Amount, { say, write }: Telling): string | null {
  const depth = amount.also?.find((other) => other.unit === 'cm');
  if (depth !== undefined) return say('plan:amounts.depth', { depth: write.depth(depth.value).text });
  const spoon = spoonBeside({ amount, region: write.units });
  if (spoon !== null)
    return say('buying:standIn.spoon', { spoon: spoon.words, percent: Math.round(spoon.errorPercent) });
  if (amount.kitchen === undefined) return null;
  const { words, errorPercent = 0 } = amount.kitchen;
  return errorPercent === 0 ? words : say('plan:kitchenError', { words, percent: Math.round(errorPercent) });
}

function spanText(amount: Amount, forecast: Forecast | null, telling: Telling): string | null {
  const { say } = telling;
  const inUnit = (value: number): Written => amountWritten({ unit: amount.unit, value }, telling);
  const used = isMadeAhead(amount) ? neededOf({ amount, forecast }) : null;
  if (used !== null) {
    if (used.p95 - used.p5 < 0.01 * used.p95) return null; // all such makes use the same of it
    const span = nineInTen({ spread: used, step: stepFor(used.p95), write: inUnit, say });
    return say('plan:span.enough', { about: plainly(inUnit(Number(used.p50.toPrecision(2))), Math.round).text, span });
  }
  if (amount.low === undefined || amount.high === undefined || amount.low >= amount.high) return null;
  const [low, high] = [inUnit(amount.low), inUnit(amount.high)];
  return say('plan:span.likely', { low: low.unit === high.unit ? low.number : low.text, high: high.text });
}
