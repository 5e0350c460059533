/** The buying list in words: each line in both unit systems, what the house has of it, what can stand in. */
import {
  buyingList,
  type BuyingItem,
  type EveningJob,
  type Standing,
  type StockLine,
} from '../../../exchange/buying.ts';
import type { Substitute } from '../../../exchange/substitutes.ts';
import { bothUnits } from '../../../exchange/text/both-units.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import { sentenceInUnits } from '../../../make/sentence.ts';
import { amountWritten, readyWritten } from '../plan/amount-written.ts';
import { plainly, type Telling } from '../plan/spans.ts';

export interface BuyingRow {
  readonly id: string;
  readonly what: string;
  /** What to bring home, and the same in the other system of units; null where that says nothing more. */
  readonly amount: string;
  readonly other: string | null;
  readonly hint: string | null;
  /** What is in the house; null where there is none of it. */
  readonly house: string | null;
  readonly isThere: boolean;
  readonly standIns: readonly StandIn[];
}

export interface StandIn {
  readonly id: string;
  readonly text: string;
  readonly doubts: string;
  readonly source: string;
}

export interface BuyingView {
  readonly rows: readonly BuyingRow[];
  readonly buy: readonly string[];
  readonly avoid: readonly string[];
  readonly warnings: readonly {
    readonly id: string;
    readonly text: string;
    readonly isRefused: boolean;
    readonly source: string;
  }[];
  readonly evening: readonly { readonly where: EveningJob['where']; readonly jobs: readonly string[] }[];
}

/** All that is to be bought and made ready for a plan, in the words and figures of one reader. */
export function buyingView(
  input: { readonly plan: Plan; readonly forecast: Forecast | null; readonly stock: readonly StockLine[] } & Telling,
): BuyingView {
  const { plan, say, write } = input;
  const list = buyingList(input);
  const inUnits = (text: string): string => sentenceInUnits({ text, units: write.units });
  return {
    rows: list.items.map((item) => rowOf(item, plan, input)),
    buy: list.carton.buy,
    avoid: list.carton.avoid,
    warnings: list.warnings.map(({ when, effect, because, instead, source }) => ({
      id: when,
      text: `${say(`buying:carton.${when}`)}: ${inUnits(`${because} ${instead}`)}`,
      isRefused: effect === 'refuse',
      source,
    })),
    evening: (['freezer', 'fridge', 'table'] as const).flatMap((where) => {
      const jobs = list.evening.filter((job) => job.where === where).map((job) => eveningText(job, plan, input));
      return jobs.length === 0 ? [] : [{ where, jobs }];
    }),
  };
}

function rowOf(item: BuyingItem, plan: Plan, telling: Telling): BuyingRow {
  const { say, write } = telling;
  const { culture, milk } = plan.setup;
  return {
    id: item.id,
    what: say(`buying:items.${item.id}`, {
      animal: say(`plan:options.milk.species.${milk.species}`),
      culture: plan.make.doses.culture === undefined ? '' : say(`plan:cultureKinds.${plan.make.doses.culture.kind}`),
    }),
    amount: bought(item, telling),
    other: otherUnits(item, telling),
    hint:
      item.id === 'culture' && item.unit === 'packets'
        ? item.treatsL === undefined
          ? say('buying:hint.packet', { litres: write.litres(culture.packetTreatsL).text })
          : say('buying:hint.unreadPacket', { litres: write.litres(item.treatsL).text })
        : hintOf(item.id, telling),
    house: houseText(item, telling),
    isThere: item.standing.state === 'enough',
    standIns: item.substitutes.map((one) => standIn(one, telling)),
  };
}

const HINTED: ReadonlySet<string> = new Set([
  'milk',
  'rennet',
  'rennet-water',
  'salt',
  'dry-salt',
  'ice',
  'acid-citric',
]);
const hintOf = (id: string, { say }: Telling): string | null => (HINTED.has(id) ? say(`buying:hint.${id}`) : null);

/** What a shop sells is round already. */
function bought({ unit, amount }: Pick<BuyingItem, 'unit' | 'amount'>, telling: Telling): string {
  const { say, write } = telling;
  if (unit === 'pairs') return say('buying:pairs', { count: amount });
  if (unit === 'packets') return say('buying:packets', { count: amount });
  if (write.units === 'metric') return `${write.number(amount, Number.isInteger(amount) ? 0 : 1)}\u202F${unit}`;
  return plainly(amountWritten({ unit, value: amount }, telling), Math.ceil).text;
}

/** The same in the other system; of grams and millilitres only where a kitchen of the other kind would not know them. */
function otherUnits({ unit, amount }: Pick<BuyingItem, 'unit' | 'amount'>, { write }: Telling): string | null {
  const both = bothUnits(write.units, write.language);
  switch (unit) {
    case 'L':
      return both.volume(amount).second;
    case 'kg':
      return both.mass(amount).second;
    case 'g':
      return both.mass(amount / 1000).second;
    case 'mL':
      return both.volume(amount / 1000).second;
    case 'packets':
    case 'pairs':
      return null;
  }
}

function houseText(item: BuyingItem, telling: Telling): string | null {
  const { say } = telling;
  const standing: Standing = item.standing;
  if (standing.state === 'none') return null;
  const names = standing.names.join(', ');
  if (standing.state !== 'short') return say(`buying:house.${standing.state}`, { names });
  const missing =
    item.treatsL === undefined
      ? item.unit === 'pairs'
        ? String(standing.missing)
        : amountWritten({ unit: item.unit, value: standing.missing }, telling).text
      : say('buying:house.forMilk', { litres: telling.write.litres(standing.missing).text });
  return say('buying:house.short', { names, missing });
}

function standIn(one: Substitute, telling: Telling): StandIn {
  const { say } = telling;
  const about = (value: number): string =>
    one.unit === 'tablets'
      ? say('buying:tablets', { count: Number(value.toFixed(1)) })
      : one.unit === 'packets'
        ? say('buying:packets', { count: Number(value.toFixed(2)) })
        : amountWritten({ unit: one.unit, value }, telling).text;
  const span = one.low === undefined || one.high === undefined ? '' : say('buying:standIn.span', { low: about(one.low), high: about(one.high) }); // prettier-ignore
  const spoon = one.spoon === undefined ? '' : say('buying:standIn.spoon', { spoon: one.spoon.words, percent: Math.round(one.spoon.errorPercent) }); // prettier-ignore
  return {
    id: one.id,
    text: [say(`buying:standIn.${one.id}`, { amount: about(one.value) }), span, spoon]
      .filter((part) => part !== '')
      .join(' '),
    doubts: one.doubts.map((doubt) => say(`buying:doubt.${doubt}`)).join(' '),
    source: one.source,
  };
}

function eveningText({ id, what, ready }: EveningJob, plan: Plan, telling: Telling): string {
  const { say, write } = telling;
  const amount = ready === null ? null : readyWritten(ready, telling).text;
  if (what === null) {
    return say(`buying:evening.${id}`, { amount: amount ?? write.litres(plan.setup.milk.volumeL).text });
  }
  const words = sentenceInUnits({ text: what, units: write.units });
  return amount === null ? words : say('buying:evening.asked', { what: words, amount });
}
