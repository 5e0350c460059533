/**
 * What sweet whey holds, and what cream or a mixture holds: compositions that follow from the milk's.
 * Left out: acid whey (less lactose, dissolved calcium phosphate), whey of a washed vat (thinned).
 */
import { LACTOSE_G_PER_MOL, milkDensityKernel, type MilkComposition } from './milk.ts';

// Whey of rennet cheese holds about 93.1 % water, 0.3 fat, 0.85 protein, 4.9 lactose, 0.55 ash: Thom and Fisk 1918, The Book
// of Cheese, chapter on whey, from memory within a tenth; the shares of the milk's own are our own arithmetic from them.
const WHEY_FAT_PERCENT = 0.3; // as above
const FINES_PERCENT = 0.05; // casein left as dust; our own choice
const SERUM_SHARE = 1.07; // what the serum carries stands so much denser in it than in milk; our own arithmetic (water 93.1 against 87.1)
const WHEY_ASH_SHARE = 0.87; // of the milk's, most of the rest is bound to casein; our own arithmetic from 0.55
const WHEY_PH = 6.45; // sweet whey a few hours from the milk, 6.3 to 6.6: common practice (no source)

/**
 * Sweet whey of a milk (kernel, unchecked).
 *
 * @param milk  the milk that it came from
 * @returns composition of the whey, in the fields of a milk
 * Valid: sweet whey within hours of draining. Uncertainty: a tenth of each part.
 * @source shares of the milk's own parts from whey analyses in Thom and Fisk 1918, from memory
 */
export function sweetWheyKernel(milk: MilkComposition): MilkComposition {
  const wheyProteinPercent = SERUM_SHARE * milk.wheyProteinPercent;
  const nonProteinPercent = SERUM_SHARE * (milk.proteinPercent - milk.caseinPercent - milk.wheyProteinPercent);
  const proteinPercent = FINES_PERCENT + wheyProteinPercent + nonProteinPercent;
  const lactosePercent = SERUM_SHARE * milk.lactosePercent;
  const ashPercent = WHEY_ASH_SHARE * milk.ashPercent;
  const solidsNotFatPercent = proteinPercent + lactosePercent + ashPercent;
  const finesShare = FINES_PERCENT / milk.caseinPercent;
  return withLactose({
    ...milk,
    fatPercent: WHEY_FAT_PERCENT,
    proteinPercent,
    caseinPercent: FINES_PERCENT,
    wheyProteinPercent,
    lactosePercent,
    ashPercent,
    waterPercent: 100 - WHEY_FAT_PERCENT - solidsNotFatPercent,
    solidsNotFatPercent,
    pH: WHEY_PH,
    caseinGPerL: finesShare * milk.caseinGPerL,
    wheyProteinGPerL: SERUM_SHARE * milk.wheyProteinGPerL,
    colloidalPhosphateMM: finesShare * milk.colloidalPhosphateMM,
  });
}

/** Lactose in mmol per litre, from its percent by mass. */
const withLactose = (milk: MilkComposition): MilkComposition => ({
  ...milk,
  lactoseMM: (milk.lactosePercent * kgPerL(milk) * 1e4) / LACTOSE_G_PER_MOL,
});

/**
 * Cream of a milk, or its skim: the fat-free part unchanged, thinned by the fat (kernel, unchecked).
 * @param milk  the milk
 * @param fatPercent  of the cream [%], 0 to 50
 * @source mass balance
 */
export function creamKernel(milk: MilkComposition, fatPercent: number): MilkComposition {
  const share = (100 - fatPercent) / (100 - milk.fatPercent);
  return scaledBut(milk, share, { fatPercent, waterPercent: share * milk.waterPercent });
}

const PARTS = [
  'proteinPercent',
  'caseinPercent',
  'wheyProteinPercent',
  'lactosePercent',
  'ashPercent',
  'solidsNotFatPercent',
  'caseinGPerL',
  'wheyProteinGPerL',
  'lactoseMM',
  'solublePhosphateMM',
  'citrateMM',
  'colloidalPhosphateMM',
  'calciumMM',
] as const;

function scaledBut(milk: MilkComposition, share: number, own: Partial<MilkComposition>): MilkComposition {
  const scaled: Partial<Record<(typeof PARTS)[number], number>> = {};
  for (const part of PARTS) scaled[part] = share * milk[part];
  return withLactose({ ...milk, ...scaled, ...own });
}

/** Litres of a milk, cream or whey. */
export interface Poured {
  readonly milk: MilkComposition;
  readonly litres: number;
}

/** Mass of a litre at 20 °C [kg]. */
export const kgPerL = (milk: MilkComposition): number =>
  milkDensityKernel({ fatPercent: milk.fatPercent, solidsNotFatPercent: milk.solidsNotFatPercent, temperatureC: 20 }) / 1000; // prettier-ignore

/**
 * What two of them hold together (kernel, unchecked): percents by mass, what is per litre by litres; the pH is the first's.
 * @source mass balance
 */
export function mixedKernel(first: Poured, second: Poured): MilkComposition {
  const kg = [first.litres * kgPerL(first.milk), second.litres * kgPerL(second.milk)] as const;
  const byMass = (a: number, b: number): number => (kg[0] * a + kg[1] * b) / (kg[0] + kg[1]);
  const byVolume = (a: number, b: number): number =>
    (first.litres * a + second.litres * b) / (first.litres + second.litres);
  const mixed: Partial<Record<(typeof PARTS)[number], number>> = {};
  for (const part of PARTS) {
    const by = part.endsWith('Percent') ? byMass : byVolume;
    mixed[part] = by(first.milk[part], second.milk[part]);
  }
  return withLactose({
    ...first.milk,
    ...mixed,
    fatPercent: byMass(first.milk.fatPercent, second.milk.fatPercent),
    waterPercent: byMass(first.milk.waterPercent, second.milk.waterPercent),
  });
}
