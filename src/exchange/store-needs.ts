/** What the planned makes will take out of the store, and what of it is not there. */
import type { Make } from '../make/make.ts';
import { planMake } from '../make/planning.ts';
import type { Answers } from '../make/setup.ts';
import { InputError } from '../numbers/validity.ts';
import type { LotRecord } from '../record/lot-record.ts';
import { amountIn, leftOfLot, type StoreUse } from '../record/store-uses.ts';

/** A plan that is kept and not yet made. */
export interface PlannedMake {
  readonly makeId: string;
  readonly answers: Answers;
  readonly startAt: number;
  readonly pots: number;
}

export interface StoreNeed {
  readonly ingredient: string;
  readonly amount: number;
  readonly unit: string;
  readonly makeName: string;
  readonly startAt: number;
}

/** Amounts of a plan that come out of the store; water, ice and whey do not. */
const STORED: ReadonlySet<string> = new Set([
  'milk',
  'culture',
  'rennet',
  'calcium',
  'acid',
  'salt',
  'lipase',
  'ripeningCulture',
  'colour',
  'cream',
]);

/** What each planned make takes, in the order of the days. A plan that cannot be made any more asks for nothing. */
export function storeNeeds(input: {
  readonly plans: readonly PlannedMake[];
  readonly makes: readonly Make[];
}): readonly StoreNeed[] {
  return [...input.plans]
    .sort((a, b) => a.startAt - b.startAt)
    .flatMap(({ makeId, answers, startAt, pots }) => {
      const make = input.makes.find(({ id }) => id === makeId);
      if (make === undefined) return [];
      return amountsOf({ make, answers })
        .filter(({ id }) => STORED.has(id))
        .map(({ id, value, unit }) => ({ ingredient: id, amount: pots * value, unit, makeName: make.name, startAt }));
    });
}

function amountsOf(input: { readonly make: Make; readonly answers: Answers }): ReturnType<typeof planMake>['amounts'] {
  try {
    return planMake(input).amounts;
  } catch (error) {
    if (error instanceof InputError) return [];
    throw error;
  }
}

/** An ingredient that will run out, and the make that it runs out at. */
export interface Shortage {
  readonly ingredient: string;
  readonly unit: string;
  /** Wanted by all the planned makes up to that one. */
  readonly needed: number;
  /** In the house, of the lots whose amount is known. */
  readonly left: number;
  readonly makeName: string;
  readonly startAt: number;
}

/**
 * What to buy, and before which day: for each ingredient the first planned make that the store does not reach. Only what
 * somebody has counted is told; of an ingredient no lot of which has an amount nothing is known.
 */
export function shortages(input: {
  readonly needs: readonly StoreNeed[];
  readonly lots: readonly LotRecord[];
  readonly uses: readonly StoreUse[];
}): readonly Shortage[] {
  const { needs, lots, uses } = input;
  return [...new Set(needs.map(({ ingredient }) => ingredient))].flatMap((ingredient) => {
    const own = needs.filter((need) => need.ingredient === ingredient);
    const unit = own[0]?.unit ?? '';
    const stock = lots
      .filter((lot) => lot.kind === ingredient && lot.usedUpOn === null)
      .flatMap((lot) => {
        const { left } = leftOfLot({ lot, uses });
        const amount = left === null ? null : amountIn({ amount: left.value, from: left.unit, to: unit, packetG: lot.massG }); // prettier-ignore
        return amount === null ? [] : [amount];
      });
    if (stock.length === 0) return [];
    const left = stock.reduce((sum, amount) => sum + amount, 0);
    let needed = 0;
    for (const { amount, unit: its, makeName, startAt } of own) {
      needed += amountIn({ amount, from: its, to: unit }) ?? 0;
      if (needed > left + HAIR) return [{ ingredient, unit, needed, left, makeName, startAt }];
    }
    return [];
  });
}
const HAIR = 1e-9; // rounding of floating point only
