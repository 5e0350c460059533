/** Amounts and shopping list as text: weighed first, the kitchen's way beside it. */
import { isMadeAhead, neededOf, preparedAmount, readyAmount } from '../../forecast/ready-amount.ts';
import type { Amount } from '../../make/plan.ts';
import type { Spread } from '../../numbers/stats.ts';
import { outward } from '../written.ts';
import { shoppingList, type ShoppingItem } from '../shopping.ts';
import { columns, paragraph } from './layout.ts';
import type { TimedPreparation } from '../schedule.ts';
import type { Sheet } from './telling.ts';

/** Every amount in the order of the work: name, in both systems, and how a kitchen takes it. */
export function amountLines(sheet: Sheet): string[] {
  const { plan, say, width } = sheet;
  const order = new Map(plan.steps.map((step, index) => [step.id, index]));
  const rows = plan.amounts
    .map((amount) => ({ amount, at: order.get(amount.stepId) ?? Number.POSITIVE_INFINITY }))
    .sort((a, b) => a.at - b.at)
    .map(({ amount }) => amountRow({ amount, sheet }));
  const delay = sheet.spoonDelayMin;
  const spoon =
    delay === null
      ? []
      : paragraph({ text: say('plan-text:amounts.spoonDelay', { minutes: Math.round(delay) }), width });
  return [...columns({ rows, width, right: [1, 2] }), ...spoon];
}

function amountRow({ amount, sheet }: { readonly amount: Amount; readonly sheet: Sheet }): string[] {
  const { say, forecast } = sheet;
  const { value } = readyAmount({ amount, forecast });
  const written = inUnits({ amount, value, sheet });
  const name = say(`plan:amounts.${amount.id}`);
  const notes = [kitchenText(amount, sheet), spanText(amount, sheet), restsText(amount, sheet)];
  if (amount.dependsOnCurd) notes.push(say('plan-text:amounts.waits'));
  return [name, written.first, written.second, notes.filter((note) => note !== '').join('; ')];
}

function inUnits(input: {
  readonly amount: Pick<Amount, 'unit' | 'also'>;
  readonly value: number;
  readonly sheet: Sheet;
}): {
  readonly first: string;
  readonly second: string;
} {
  const { amount, value, sheet } = input;
  const { both, say } = sheet;
  switch (amount.unit) {
    case 'g':
      return both.mass(value / 1000);
    case 'kg':
      return both.mass(value);
    case 'mL':
      return both.volume(value / 1000);
    case 'L':
      return both.volume(value);
    case 'drops':
      return { first: say('plan-text:amounts.drops', { count: Math.round(value) }), second: '' };
    case 'packets': {
      const grams = amount.also?.find((other) => other.unit === 'g');
      if (grams !== undefined) return both.mass(grams.value / 1000);
      return { first: say('plan-text:amounts.packets', { count: Math.round(value * 100) / 100 }), second: '' };
    }
  }
}

/** A share of a packet, drops, a depth, and last the spoon with its error. */
function kitchenText(amount: Amount, { say, both }: Sheet): string {
  const parts: string[] = [];
  const { kitchen, spoon } = amount;
  if (kitchen !== undefined) {
    const percent = kitchen.errorPercent ?? 0;
    parts.push(percent === 0 ? kitchen.words : say('plan-text:amounts.byEye', { words: kitchen.words, percent }));
  }
  const depth = amount.also?.find((other) => other.unit === 'cm');
  if (depth !== undefined) parts.push(say('plan:amounts.depth', { depth: both.depth(depth.value).text }));
  if (spoon !== undefined)
    parts.push(say('plan-text:amounts.spoon', { words: spoon.words, percent: spoon.errorPercent }));
  return parts.join('; ');
}

/** What such makes use of it, where that is foreseen; else the likely range of a strength or a packet nobody has read. */
function spanText(amount: Amount, sheet: Sheet): string {
  const { say, forecast } = sheet;
  const written = (value: number): string => inUnits({ amount: { unit: amount.unit }, value, sheet }).first;
  const band = (p5: number, p95: number) => {
    const { low, high } = outward({ low: p5, high: p95, step: 10 ** (Math.floor(Math.log10(p95)) - 1) });
    return { low: withoutUnit(written(low), written(high)), high: written(high) };
  };
  const needed: Spread | null = neededOf({ amount, forecast });
  if (needed !== null && isMadeAhead(amount)) {
    if (isOneFigure(needed)) return '';
    const about = written(Number(needed.p50.toPrecision(2)));
    return say('plan-text:amounts.enough', { ...band(needed.p5, needed.p95), about });
  }
  if (amount.low === undefined || amount.high === undefined || amount.low >= amount.high) return '';
  return say('plan-text:amounts.likely', band(amount.low, amount.high));
}

/** All such makes use the same of it, to the figures that are written. */
const isOneFigure = ({ p5, p95 }: Spread): boolean => p95 - p5 < 0.01 * p95;

/** What an amount rests on that nobody has read. */
const restsText = ({ restsOn }: Amount, { plan, say, both }: Sheet): string =>
  restsOn === undefined
    ? ''
    : say(`plan:amounts.${restsOn}`, { litres: both.volume(plan.setup.culture.packetTreatsL).text });

/** "2.0" of "2.0 mL" where the other end of a span has the same unit. */
export function withoutUnit(low: string, high: string): string {
  const unit = low.slice(low.indexOf(' '));
  return high.endsWith(unit) ? low.slice(0, low.indexOf(' ')) : low;
}

/** How much of it a preparation is of, in both systems; empty where nothing is measured for it. */
export function preparedText({ step, preparation }: TimedPreparation, sheet: Sheet): string {
  const ready = preparedAmount({ plan: sheet.plan, forecast: sheet.forecast, step, preparation });
  if (ready === null) return '';
  const { first, second } = inUnits({ amount: { unit: ready.unit }, value: ready.value, sheet });
  return second === '' ? first : `${first} (${second})`;
}

/** What to bring home: rounded up to what shops sell. */
export function shoppingLines(sheet: Sheet): string[] {
  const { say, width } = sheet;
  const { items, carton } = shoppingList(sheet);
  const rows = items
    .filter((item) => item.id !== 'rennet-water')
    .map((item) => [say(`plan-text:shopping.${item.id}`), ...bought(item, sheet), noteOf(item, sheet)]);
  return [
    ...columns({ rows, width, right: [1, 2] }),
    ...paragraph({ text: say('plan-text:shopping.buy', { words: carton.buy.join(', ') }), width }),
    ...paragraph({ text: say('plan-text:shopping.avoid', { words: carton.avoid.join(', ') }), width }),
  ];
}

function bought({ unit, amount }: ShoppingItem, { both, say }: Sheet): [string, string] {
  switch (unit) {
    case 'packets':
      return [say('plan-text:amounts.packets', { count: amount }), ''];
    case 'pairs':
      return [say('plan-text:amounts.pairs', { count: amount }), ''];
    case 'L':
    case 'mL': {
      const { first, second } = both.volume(unit === 'L' ? amount : amount / 1000);
      return [first, second];
    }
    case 'kg':
    case 'g': {
      const { first, second } = both.mass(unit === 'kg' ? amount : amount / 1000);
      return [first, second];
    }
  }
}

function noteOf({ id, treatsL }: ShoppingItem, { plan, say, both }: Sheet): string {
  if (id !== 'culture') return '';
  const { culture } = plan.setup;
  const dose = plan.make.doses.culture;
  if (dose === undefined) return '';
  const kind = say(`plan:cultureKinds.${dose.kind}`);
  if (culture.bulkPercent !== undefined) {
    return say('plan-text:shopping.culturePoured', { kind, form: say(`plan:options.culture.form.${culture.form}`) });
  }
  return treatsL === undefined
    ? say('plan-text:shopping.cultureNote', { kind, litres: both.volume(culture.packetTreatsL).text })
    : say('plan-text:shopping.cultureUnread', { kind, treats: both.volume(treatsL).text });
}
