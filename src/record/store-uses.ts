/** What batches and brines took out of the store: each addition against the lot it came from, and what is left of each. */
import type { BatchRecord } from './batch-record.ts';
import type { BrineRecord } from './brine-record.ts';
import { isDemoStream } from './event.ts';
import type { LotRecord } from './lot-record.ts';

export interface StoreUse {
  /** `culture`, `salt`, `milk` …, as the make language has its ingredients. */
  readonly ingredient: string;
  readonly amount: number;
  readonly unit: string;
  /** Milliseconds UTC. */
  readonly at: number;
  /** The batch or brine it went into. */
  readonly streamId: string;
  /** Null where nobody said which, and more than one could be meant. */
  readonly lotId: string | null;
  /** True where nobody said which lot, but only one was open. */
  readonly isGuessed: boolean;
}

/** Every addition of batches and every top-up of brines, against the lots of the house. */
export function storeUses(input: {
  readonly records: readonly BatchRecord[];
  readonly brines: readonly BrineRecord[];
  readonly lots: readonly LotRecord[];
}): readonly StoreUse[] {
  const { records, brines, lots } = input;
  const taken = [...records.flatMap(takenByBatch), ...brines.flatMap(takenByBrine)];
  return taken
    .map(({ named, ...use }) => {
      if (named !== undefined && lots.some(({ lotId }) => lotId === named)) return { ...use, lotId: named, isGuessed: false }; // prettier-ignore
      const lot = likelyLot({ use, lots });
      return { ...use, lotId: lot?.lotId ?? null, isGuessed: lot !== null };
    })
    .sort((a, b) => a.at - b.at);
}

type Taken = Omit<StoreUse, 'lotId' | 'isGuessed'> & { readonly named?: string | undefined };

function takenByBatch(record: BatchRecord): Taken[] {
  const { batchId: streamId, answers, added, zeroAt, steps } = record;
  if (answers === null) return [];
  const named: Readonly<Record<string, string | undefined>> = { culture: answers.culture?.lot, rennet: answers.rennet?.lot, calcium: answers.calcium?.lot }; // prettier-ignore
  const milk: Taken[] = steps.length === 0 ? [] : [{ ingredient: 'milk', amount: answers.milk.volumeL, unit: 'L', at: zeroAt, streamId, named: answers.milk.lot }]; // prettier-ignore
  return [
    ...milk,
    ...added
      .filter(({ amount, ingredient }) => amount > 0 && ingredient !== 'water')
      .map(({ ingredient, amount, unit, at, lot }) => ({ ingredient, amount, unit, at, streamId, named: lot ?? named[ingredient] })), // prettier-ignore
  ];
}

function takenByBrine({ brineId: streamId, topped }: BrineRecord): Taken[] {
  return topped.flatMap(({ at, saltKg = 0, calciumG = 0, vinegarMl = 0 }) =>
    [
      { ingredient: 'salt', amount: saltKg, unit: 'kg', at, streamId },
      { ingredient: 'calcium', amount: calciumG, unit: 'g', at, streamId },
      { ingredient: 'acid', amount: vinegarMl, unit: 'mL', at, streamId },
    ].filter(({ amount }) => amount > 0),
  );
}

/** The one that was open then, or the only one there was; null where that is not clear. */
function likelyLot(input: { readonly use: Taken; readonly lots: readonly LotRecord[] }): LotRecord | null {
  const { use, lots } = input;
  const there = lots.filter(
    (lot) =>
      lot.kind === use.ingredient &&
      isDemoStream(lot.lotId) === isDemoStream(use.streamId) &&
      lot.sinceAt <= use.at &&
      (lot.usedUpAt === null || lot.usedUpAt >= use.at),
  );
  const [only, another] = there.length > 1 ? there.filter(({ openedOn }) => openedOn !== null) : there;
  return only !== undefined && another === undefined ? only : null;
}

const IN_BASE: Readonly<Record<string, readonly [base: 'g' | 'mL' | 'packets' | 'tablets', factor: number]>> = {
  g: ['g', 1],
  kg: ['g', 1000],
  mL: ['mL', 1],
  L: ['mL', 1000],
  packets: ['packets', 1],
  tablets: ['tablets', 1],
};

/** An amount in another unit of its kind; null where one cannot be counted in the other. */
export function amountIn(input: {
  readonly amount: number;
  readonly from: string;
  readonly to: string;
  /** Of a packet, what it weighs [g]: then grams and packets are one. */
  readonly packetG?: number | null;
}): number | null {
  const { amount, packetG = null } = input;
  const [from, to] = [IN_BASE[input.from], IN_BASE[input.to]];
  if (from === undefined || to === undefined) return null;
  const value = amount * from[1];
  if (from[0] === to[0]) return value / to[1];
  if (packetG === null || packetG <= 0) return null;
  if (from[0] === 'g' && to[0] === 'packets') return value / packetG;
  return from[0] === 'packets' && to[0] === 'g' ? (value * packetG) / to[1] : null;
}

/** What is left of a lot. */
export interface LeftOfLot {
  /** In the unit that it came or was counted in; null where nobody said how much there was. */
  readonly left: { readonly value: number; readonly unit: string } | null;
  /** Uses since then that stand in another unit (drops, spoons) and are not in it. */
  readonly uncounted: number;
}

/** What a lot held when it came or was last counted, less what was taken since. */
export function leftOfLot(input: { readonly lot: LotRecord; readonly uses: readonly StoreUse[] }): LeftOfLot {
  const { lot, uses } = input;
  const counted = lot.counted;
  const start = counted === null ? lot.amount : { value: counted.left, unit: counted.unit };
  if (start === null) return { left: null, uncounted: 0 };
  const since = uses.filter(({ lotId, at }) => lotId === lot.lotId && (counted === null || at > counted.at));
  const taken = since.map(({ amount, unit }) => amountIn({ amount, from: unit, to: start.unit, packetG: lot.massG }));
  const value = taken.reduce<number>((left, each) => left - (each ?? 0), start.value);
  return { left: { value: Math.max(0, value), unit: start.unit }, uncounted: taken.filter((each) => each === null).length }; // prettier-ignore
}

/** One thing that went into a batch, and what it cost. */
export interface CostLine extends StoreUse {
  /** In the maker's own money; null where its lot has no price or cannot be counted so. */
  readonly cost: number | null;
}

/** What the milk and the ingredients of a batch cost. */
export function costOfBatch(input: {
  readonly batchId: string;
  readonly uses: readonly StoreUse[];
  readonly lots: readonly LotRecord[];
}): { readonly lines: readonly CostLine[]; readonly total: number; readonly unpriced: number } {
  const lines = input.uses
    .filter(({ streamId }) => streamId === input.batchId)
    .map((use): CostLine => ({ ...use, cost: costOf({ use, lots: input.lots }) }));
  return {
    lines,
    total: lines.reduce((sum, { cost }) => sum + (cost ?? 0), 0),
    unpriced: lines.filter(({ cost }) => cost === null).length,
  };
}

function costOf(input: { readonly use: StoreUse; readonly lots: readonly LotRecord[] }): number | null {
  const { use, lots } = input;
  const lot = lots.find(({ lotId }) => lotId === use.lotId);
  if (lot === undefined || lot.price === null || lot.amount === null) return null;
  const taken = amountIn({ amount: use.amount, from: use.unit, to: lot.amount.unit, packetG: lot.massG });
  return taken === null ? null : (taken / lot.amount.value) * lot.price;
}
