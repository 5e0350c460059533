/** The store in words: what is left of each lot, how long it keeps, what to buy before which make, what makes cost. */
import { shortages, storeNeeds, type PlannedMake } from '../../../exchange/store-needs.ts';
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { Make } from '../../../make/make.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { dayNumber } from '../../../record/day-number.ts';
import { isDemoStream, otherBodies, type Event } from '../../../record/event.ts';
import { keptThings } from '../../../record/kept-things.ts';
import { foldLot, type LotRecord } from '../../../record/lot-record.ts';
import { costOfBatch, leftOfLot, storeUses, type StoreUse } from '../../../record/store-uses.ts';
import { foldOnce } from '../log/fold-once.ts';

export interface Stores {
  readonly lots: readonly LotRecord[];
  readonly uses: readonly StoreUse[];
  readonly records: readonly BatchRecord[];
  readonly plans: readonly PlannedMake[];
}

/** What the log says of the store. */
export function storesOf(input: { readonly streams: ReadonlyMap<string, readonly Event[]>; readonly now: number }): Stores {
  const of = (type: string): (readonly Event[])[] => [...input.streams].flatMap(([id, events]) => (id.startsWith(`${type}:`) ? [events] : []));
  const records = of('batch').map(foldOnce).filter(({ isOpened }) => isOpened);
  const lots = of('lot').map(foldLot).filter(({ isReceived }) => isReceived);
  const { brines } = keptThings(input.streams);
  const plans = of('day').flat().flatMap((event): PlannedMake[] => {
    const parsed = event.kind === 'dayPlanned' && !isDemoStream(event.streamId) ? otherBodies.dayPlanned.safeParse(event.body) : null;
    if (parsed?.success !== true || parsed.data.startAt < input.now) return [];
    const { makeId, answers, startAt, pots } = parsed.data;
    return [{ makeId, answers, startAt, pots: pots?.count ?? 1 }];
  });
  return { lots, records, plans, uses: storeUses({ records, brines, lots }) };
} // prettier-ignore

const SOON_DAYS = 30; // our own choice

/** Left, expiry and price of a lot: short lines after those that it had already. */
export function storeLines(input: {
  readonly lot: LotRecord;
  readonly uses: readonly StoreUse[];
  readonly today: number;
  readonly currency: string;
  readonly instantOf: (day: string) => number | null;
  readonly say: Say;
  readonly write: Writer;
}): { readonly lines: readonly string[]; readonly warning: string | null } {
  const { lot, uses, today, currency, instantOf, say, write } = input;
  const { left, uncounted } = leftOfLot({ lot, uses });
  const at = lot.expiresOn === null ? null : instantOf(lot.expiresOn);
  const days = lot.expiresOn === null ? Number.POSITIVE_INFINITY : dayNumber(lot.expiresOn) - today;
  const lines = [
    ...(left === null ? [] : [say('stores:left', { amount: amountText({ ...left, write }) })]),
    ...(uncounted === 0 ? [] : [say('stores:uncounted', { count: uncounted })]),
    ...(lot.price === null || lot.amount === null ? [] : [say('stores:priced', { price: moneyText({ value: lot.price, currency, write }), amount: amountText({ ...lot.amount, write }) })]),
    ...(at === null || days <= SOON_DAYS ? [] : [say('stores:keeps', { day: write.date(at) })]),
  ];
  const warning = at === null || days > SOON_DAYS ? null : say(days < 0 ? 'stores:past' : 'stores:soon', { day: write.date(at), count: Math.abs(days) });
  return { lines, warning };
} // prettier-ignore

/** "3.8 packets", "0.97 kg": as counted, in the unit it came in. */
export function amountText(input: { readonly value: number; readonly unit: string; readonly write: Writer }): string {
  const { value, unit, write } = input;
  const digits = value >= 100 || Number.isInteger(value) ? 0 : value >= 10 ? 1 : 2;
  return `${write.number(value, digits)}\u202F${unit}`;
}

/** The maker's own money: their sign, two decimals. */
export const moneyText = (input: {
  readonly value: number;
  readonly currency: string;
  readonly write: Writer;
}): string => `${input.currency === '' ? '' : `${input.currency}\u202F`}${input.write.number(input.value, 2)}`;

/** What to buy, and before which make, one line each. */
export function buyLines(input: { readonly stores: Stores; readonly makes: readonly Make[]; readonly say: Say; readonly write: Writer }): readonly string[] {
  const { stores, makes, say, write } = input;
  const needs = storeNeeds({ plans: stores.plans, makes });
  return shortages({ needs, lots: stores.lots, uses: stores.uses }).map(({ ingredient, unit, needed, left, makeName, startAt }) =>
    say('stores:buy.line', { what: say(`stores:kinds.${ingredient}`), day: write.day(startAt), make: makeName, needed: amountText({ value: needed, unit, write }), left: amountText({ value: left, unit, write }) }),
  );
} // prettier-ignore

export interface CostRow {
  readonly batchId: string;
  readonly name: string;
  readonly day: string;
  /** "12.40, 8.10 a kilogram". */
  readonly words: string;
  /** What is not in it. */
  readonly without: string;
}

const MOST_COSTS = 6;

/** What the last makes cost, newest first; those of which nothing has a price are left out. */
export function costRows(input: { readonly stores: Stores; readonly currency: string; readonly say: Say; readonly write: Writer }): readonly CostRow[] {
  const { stores, currency, say, write } = input;
  return [...stores.records]
    .filter(({ finishedAt }) => finishedAt !== null)
    .sort((a, b) => b.zeroAt - a.zeroAt)
    .flatMap((record): CostRow[] => {
      const { total, lines } = costOfBatch({ batchId: record.batchId, uses: stores.uses, lots: stores.lots });
      if (total <= 0) return [];
      const massKg = cheeseKg(record);
      const money = (value: number): string => moneyText({ value, currency, write });
      const unpriced = [...new Set(lines.filter(({ cost }) => cost === null).map(({ ingredient }) => say(`stores:kinds.${ingredient}`)))];
      return [{
        batchId: record.batchId.replace(/^batch:/, ''),
        name: record.name,
        day: write.shortDate(record.zeroAt),
        words: massKg === null ? money(total) : say('stores:cost.line', { total: money(total), perKg: money(total / massKg) }),
        without: unpriced.length === 0 ? '' : say('stores:cost.without', { what: unpriced.join(', ') }),
      }];
    })
    .slice(0, MOST_COSTS);
} // prettier-ignore

function cheeseKg({ weighed }: BatchRecord): number | null {
  const whole = weighed.filter(({ what }) => what === 'cheese').at(-1);
  if (whole !== undefined) return whole.massKg;
  const pieces = weighed.filter(({ what }) => what === 'piece');
  return pieces.length === 0 ? null : pieces.reduce((sum, { massKg }) => sum + massKg, 0);
}
