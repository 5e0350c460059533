import type { StockLine } from '../../../exchange/buying.ts';
import type { KeptLot } from '../lots/kept-lots.ts';

/** The packets and bottles of the house as a buying list counts them. */
export const stockOf = (lots: readonly KeptLot[]): StockLine[] =>
  lots.flatMap(({ lot }) =>
    lot.kind === null ? [] : [{ ingredient: lot.kind, name: lot.name, left: null, treatsL: lot.treatsL }],
  );
