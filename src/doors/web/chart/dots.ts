/** Twenty equally likely moments as countable dots. Pure. */

export interface Dot {
  readonly atMin: number;
  readonly x: number;
  /** 0 stands on the axis; each next one stands on the one below. */
  readonly row: number;
}

/**
 * Stacks dots that would overlap: each is drawn in the middle of its bin, as wide as a dot. A full stack sends the rest
 * to the next bin on the late side, so that twenty dots of one minute are still twenty dots to count.
 * @param input.dotsMin equally likely moments, ascending; infinite ones (never within sight) are left out
 * @param input.xOf from minutes to px
 * @param input.diameterPx width of one dot, with its gap
 */
export function stackDots(input: {
  readonly dotsMin: readonly number[];
  readonly xOf: (minutes: number) => number;
  readonly diameterPx: number;
  readonly mostRows: number;
}): Dot[] {
  const heights = new Map<number, number>();
  return input.dotsMin
    .filter((atMin) => Number.isFinite(atMin))
    .map((atMin) => {
      let bin = Math.round(input.xOf(atMin) / input.diameterPx);
      while ((heights.get(bin) ?? 0) >= input.mostRows) bin++;
      const row = heights.get(bin) ?? 0;
      heights.set(bin, row + 1);
      return { atMin, x: bin * input.diameterPx, row };
    });
}

/**
 * How many of the equally likely moments have come by a time: "14 of 20".
 * @returns the count and how many there are in all, those that never come included
 */
export function readyBy(input: { readonly dotsMin: readonly number[]; readonly byMin: number }): {
  readonly ready: number;
  readonly of: number;
} {
  return { ready: input.dotsMin.filter((atMin) => atMin <= input.byMin).length, of: input.dotsMin.length };
}
