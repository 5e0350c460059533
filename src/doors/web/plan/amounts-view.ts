import type { Forecast } from '../../../forecast/forecast.ts';
import type { Amount, Plan } from '../../../make/plan.ts';
import type { Spread } from '../../../numbers/stats.ts';
import type { Written } from '../../../exchange/written.ts';
import { isKnown, nineInTen, stepFor, type Telling } from './spans.ts';

/** One amount as it is weighed, and beneath it how a kitchen takes it and how sure it is. */
export interface AmountRow {
  readonly id: string;
  readonly name: string;
  readonly written: Written;
  /** Share of a packet, drops, a spoon with its error; null where the weighed amount is all there is. */
  readonly kitchen: string | null;
  /** The likely range, where strength or yield is not known. */
  readonly span: string | null;
  /** Name of the step that takes it. */
  readonly forStep: string;
  /** It will be told again once the curd is weighed. */
  readonly waitsForCurd: boolean;
}

/** An amount written in its own unit, grams and millilitres first. */
export function amountWritten(
  amount: { readonly unit: Amount['unit']; readonly value: number },
  { say, write }: Telling,
): Written {
  const { unit, value } = amount;
  switch (unit) {
    case 'g':
      return write.grams(value);
    case 'kg':
      return write.kilograms(value);
    case 'mL':
      return write.millilitres(value);
    case 'L':
      return write.litres(value);
    case 'drops':
      return counted(Math.round(value), 'drops');
    case 'packets':
      return counted(Math.round(value * 100) / 100, 'packets');
  }
  function counted(count: number, name: string): Written {
    const words = say(`plan:units.${name}`, { count });
    return { number: String(count), unit: words, text: `${count}\u202F${words}` };
  }
}

/** Every amount of the plan in the order of the work; the milk itself is in the sentence above. */
export function amountRows(input: { readonly plan: Plan; readonly forecast: Forecast | null } & Telling): AmountRow[] {
  const { plan, forecast, say } = input;
  const order = new Map(plan.steps.map((step, index) => [step.id, index]));
  const nameOf = new Map(plan.steps.map((step) => [step.id, step.name]));
  return plan.amounts
    .filter((amount) => amount.id !== 'milk')
    .map((amount) => ({ amount, at: order.get(amount.stepId) ?? Infinity }))
    .sort((a, b) => a.at - b.at)
    .map(({ amount }) => ({
      id: `${amount.stepId}-${amount.id}`,
      name: say(`plan:amounts.${amount.id}`),
      written: amountWritten(weighed(amount, forecast), input),
      kitchen: kitchenText(amount, input),
      span: spanText(amount, forecast, input),
      forStep: nameOf.get(amount.stepId) ?? '',
      waitsForCurd: amount.dependsOnCurd,
    }));
}

/** Grams before packets where the packet's weight is known; the forecast's middle where the amount follows the curd. */
function weighed(amount: Amount, forecast: Forecast | null): { readonly unit: Amount['unit']; readonly value: number } {
  const grams = amount.unit === 'packets' ? amount.also?.find((other) => other.unit === 'g') : undefined;
  if (grams !== undefined) return { unit: 'g', value: grams.value };
  const foreseen = forecast === null || !amount.dependsOnCurd ? null : foreseenOf(amount.id, forecast);
  return { unit: amount.unit, value: isKnown(foreseen) ? foreseen.p50 : amount.value };
}

function kitchenText(amount: Amount, { say, write }: Telling): string | null {
  const depth = amount.also?.find((other) => other.unit === 'cm');
  if (depth !== undefined) return say('plan:amounts.depth', { depth: write.depth(depth.value).text });
  if (amount.kitchen === undefined) return null;
  const { words, errorPercent = 0 } = amount.kitchen;
  return errorPercent === 0 ? words : say('plan:kitchenError', { words, percent: Math.round(errorPercent) });
}

function spanText(amount: Amount, forecast: Forecast | null, telling: Telling): string | null {
  const foreseen = forecast === null ? null : foreseenOf(amount.id, forecast);
  const inUnit = (value: number): Written => amountWritten({ unit: amount.unit, value }, telling);
  const isForeseen = amount.dependsOnCurd && isKnown(foreseen);
  if (!isForeseen && amount.low !== undefined && amount.high !== undefined && amount.low < amount.high) {
    const [low, high] = [inUnit(amount.low), inUnit(amount.high)];
    return telling.say('plan:span.likely', { low: low.unit === high.unit ? low.number : low.text, high: high.text });
  }
  if (!isKnown(foreseen) || foreseen.p5 === foreseen.p95) return null;
  const key = isForeseen ? 'plan:span.nineInTen' : 'plan:span.takes';
  return nineInTen({ spread: foreseen, step: stepFor(foreseen.p95), write: inUnit, say: telling.say, key });
}

/** The forecast's band of the same amount, in the amount's own unit; litres and kilograms of water are read alike. */
function foreseenOf(id: string, { needs }: Forecast): Spread | null {
  switch (id) {
    case 'whey-drawn':
      return needs.wheyDrawnL;
    case 'wash-water':
      return needs.washWaterL;
    case 'stretch-water':
      return needs.stretchWaterKg;
    case 'ice':
      return needs.iceKg;
    case 'brine':
      return needs.brineKg;
    case 'salt':
      return needs.brineSaltKg;
    default:
      return null;
  }
}
