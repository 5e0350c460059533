/** A dose too small for any syringe, taken as a part of a millilitre that is thinned with water. */

/** Less than this is not measured straight: its error on a syringe with lines of 0.05 mL would be a tenth and more. Our own choice. */
export const LEAST_MEASURED_ML = 0.5;
/** At least so much of the thinned liquid is taken: a syringe of 5 mL reads that to a fiftieth. Our own choice. */
const LEAST_TAKEN_ML = 5;
/** One part in so many: all of them are made with a spoon or a jug. Our own choice. */
const PARTS = [10, 20, 50, 100, 200, 500, 1000] as const;

/**
 * How to thin a liquid so that its dose can be measured.
 * @param input.volumeML the dose as it comes from the bottle [mL], above 0
 * @returns parts of the mixture to one of the bottle, how much of that is the dose [mL], and both in words; null where the dose
 *   is measured straight, or is too small even so
 */
export function thinnedFor(input: { readonly volumeML: number }): { readonly parts: number; readonly takeML: number; readonly words: string } | null {
  const { volumeML } = input;
  if (volumeML >= LEAST_MEASURED_ML) return null;
  const parts = PARTS.find((one) => one * volumeML >= LEAST_TAKEN_ML);
  if (parts === undefined) return null;
  const takeML = parts * volumeML;
  const take = takeML.toFixed(takeML >= 20 ? 0 : 1);
  // Thinned rennet loses its strength within the hour: common practice (no source).
  return { parts, takeML, words: `stir 1 mL of it into ${parts - 1} mL of cool water and take ${take} mL of that, at once` };
} // prettier-ignore
