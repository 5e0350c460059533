/** A pot nobody has measured: usual sizes, and the width and weight that go with them. */

/** Sizes that pots and small vats are sold in, L; common practice (no source) */
const USUAL_SIZES_L = [3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 300, 400, 500, 600] as const;
const ROOM_ABOVE_MILK = 1.15; // common practice (no source): a pot 15 % larger than the milk can be stirred
const STEEL_KG_AT_10_L = 2.7; // Vatside's own estimate: a 12 L steel pot with lid weighs about 3 kg; mass goes with its surface

export interface Pot {
  readonly volumeL: number;
  readonly insideMm: number;
  readonly massKg: number;
}

/**
 * The pot to reckon with where the maker said little.
 * @param input.milkL milk to hold, L (0.5-1000)
 * @param input.volumeL the pot's volume where it is known
 * @returns volume in L; inside width in mm of a pot as wide as it is deep; mass in kg of a steel pot with lid
 */
export function usualPot(input: { readonly milkL: number; readonly volumeL?: number }): Pot {
  const needed = input.milkL * ROOM_ABOVE_MILK;
  const volumeL = input.volumeL ?? USUAL_SIZES_L.find((size) => size >= needed) ?? Math.ceil(needed / 50) * 50;
  return {
    volumeL,
    insideMm: Math.round(100 * Math.cbrt((4 * volumeL) / Math.PI)),
    massKg: Number((STEEL_KG_AT_10_L * (volumeL / 10) ** (2 / 3)).toFixed(1)),
  };
}

/**
 * How deep a volume stands in a pot with straight walls, cm: 40 V / (pi D^2) with V in L and D in dm.
 * @param input.insideMm inside width, mm
 */
export function depthCm(input: { readonly volumeL: number; readonly insideMm: number }): number {
  const widthDm = input.insideMm / 100;
  return (40 * input.volumeL) / (Math.PI * widthDm ** 2);
}
