import { curdContents, NOTHING, totalKgOf, type Contents } from './contents.ts';
import type { Vat } from './vat-state.ts';

/** What a bath of water or brine takes from the cheese; below 0 what it gives to it. */
export type Taken = Contents;

const DRIEST_PERCENT = 30; // our own bounds of what comes out of hot water
const WETTEST_PERCENT = 75; // our own, as above

/**
 * What the stretching water takes from the curd: a little of its fat; and it gives or takes water until the cheese is so much
 * wetter or drier than the curd. Nothing where the make does not stretch. Left out: lactose and salts that the water leaches.
 */
export function takenByStretching(vat: Vat, curd: Contents): Taken {
  const { inputs } = vat;
  if (!inputs.ground.isStretched) return NOTHING;
  const fatKg = curd.fatKg * inputs.stretchFatLossFraction;
  const solidsKg = totalKgOf(curd) - curd.waterKg - fatKg;
  const wanted = (100 * curd.waterKg) / totalKgOf(curd) + inputs.stretchWaterGainPercent;
  const moisture = Math.min(Math.max(wanted, DRIEST_PERCENT), WETTEST_PERCENT) / 100;
  return { ...NOTHING, fatKg, waterKg: curd.waterKg - (solidsKg * moisture) / (1 - moisture) };
}

/** The curd as it comes out of the hot water. */
export function stretchedCheese(vat: Vat): Contents {
  const curd = curdContents(vat);
  return without(curd, takenByStretching(vat, curd));
}

/** Part by part, one less the other. */
export function without(whole: Contents, taken: Taken): Contents {
  return {
    waterKg: whole.waterKg - taken.waterKg,
    fatKg: whole.fatKg - taken.fatKg,
    caseinKg: whole.caseinKg - taken.caseinKg,
    lactoseKg: whole.lactoseKg - taken.lactoseKg,
    saltKg: whole.saltKg - taken.saltKg,
    otherKg: whole.otherKg - taken.otherKg,
  };
}

export const moisturePercentOf = (cheese: Contents): number => (100 * cheese.waterKg) / totalKgOf(cheese);

export const saltPercentOf = (cheese: Contents): number => (100 * cheese.saltKg) / totalKgOf(cheese);

/** So many times as much of everything. */
export const times = (contents: Contents, factor: number): Contents => ({
  waterKg: factor * contents.waterKg,
  fatKg: factor * contents.fatKg,
  caseinKg: factor * contents.caseinKg,
  lactoseKg: factor * contents.lactoseKg,
  saltKg: factor * contents.saltKg,
  otherKg: factor * contents.otherKg,
});
