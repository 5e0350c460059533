/** Label sheets as they are sold, and how they lie on a page. Sizes are common practice (no source). */

export const STOCKS = {
  '70x37': { widthMm: 70, heightMm: 37, gapMm: 0 },
  '63x38': { widthMm: 63.5, heightMm: 38.1, gapMm: 2.5 },
} as const;
export type StockId = keyof typeof STOCKS;

/** Paper sizes: ISO 216, and US letter of 8.5 by 11 inches. */
export const PAPERS = {
  A4: { widthMm: 210, heightMm: 297 },
  Letter: { widthMm: 215.9, heightMm: 279.4 },
} as const;
export type PaperId = keyof typeof PAPERS;

/** One place on a page, its upper left corner in mm from the page's own. */
export interface Place {
  readonly leftMm: number;
  readonly topMm: number;
}

/** Every place for a label on one page, row by row from the top, centred on the paper. */
export function placesOn(input: { readonly stock: StockId; readonly paper: PaperId }): readonly Place[] {
  const { widthMm, heightMm, gapMm } = STOCKS[input.stock];
  const paper = PAPERS[input.paper];
  const columns = Math.floor((paper.widthMm + gapMm) / (widthMm + gapMm));
  const rows = Math.floor(paper.heightMm / heightMm);
  const leftMm = (paper.widthMm - columns * widthMm - (columns - 1) * gapMm) / 2;
  const topMm = (paper.heightMm - rows * heightMm) / 2;
  return Array.from({ length: columns * rows }, (_, index) => ({
    leftMm: leftMm + (index % columns) * (widthMm + gapMm),
    topMm: topMm + Math.floor(index / columns) * heightMm,
  }));
}

/** A label, the note that comes after the last one, or a place that is already used or stays empty. */
export type Cell = { readonly kind: 'label'; readonly number: number } | { readonly kind: 'check' | 'empty' };

/**
 * What stands at each place of each page. Behind the last label comes one note with the check bar, where a place is free.
 * @param input.count labels to print
 * @param input.used places at the top of the first sheet that have no label left
 */
export function labelPages(input: {
  readonly count: number;
  readonly used: number;
  readonly perPage: number;
}): readonly (readonly Cell[])[] {
  const { count, used, perPage } = input;
  const filled = used + count;
  return Array.from({ length: Math.ceil(filled / perPage) }, (_, page) =>
    Array.from({ length: perPage }, (_unused, place): Cell => {
      const at = page * perPage + place;
      if (at < used) return { kind: 'empty' };
      if (at < filled) return { kind: 'label', number: at - used + 1 };
      return { kind: at === filled ? 'check' : 'empty' };
    }),
  );
}
