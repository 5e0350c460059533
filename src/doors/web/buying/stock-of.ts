import type { StockLine } from '../../../exchange/buying.ts';
import type { LotRecord } from '../../../record/lot-record.ts';
import { amountIn, leftOfLot, type StoreUse } from '../../../record/store-uses.ts';

/** The packets, bottles and sacks of the house as a buying list counts them: each with what is left of it after what was made. */
export const stockOf = (input: {
  readonly lots: readonly LotRecord[];
  readonly uses: readonly StoreUse[];
}): StockLine[] =>
  input.lots
    .filter(({ usedUpOn }) => usedUpOn === null)
    .toSorted((a, b) => a.name.localeCompare(b.name))
    .flatMap((lot) => {
      if (lot.kind === null) return [];
      const { left } = leftOfLot({ lot, uses: input.uses });
      return [{ ingredient: lot.kind, name: lot.name, left, treatsL: treatedBy(lot, left) }];
    });

/** The milk that what is left of packets treats [L]: of one packet, where nobody said how many there are. */
function treatedBy(lot: LotRecord, left: StockLine['left']): number | null {
  if (lot.treatsL === null || left === null) return lot.treatsL;
  const packets = amountIn({ amount: left.value, from: left.unit, to: 'packets', packetG: lot.massG });
  return packets === null ? null : packets * lot.treatsL;
}
