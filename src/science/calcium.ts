/**
 * Calcium chloride: from a bottle's percent to what is in the milk, and how near the legal limit that is.
 * Everything is counted as anhydrous CaCl2. Left out: calcium hydroxide and phosphate.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';

const ANHYDROUS_G_PER_MOL = 110.98; // atomic masses
const DIHYDRATE_G_PER_MOL = 147.01; // atomic masses
const LEGAL_MAXIMUM_G_PER_KG = 0.2; // 0.02 % of the dairy ingredients: 21 CFR 133.189, text read; the same in 133.113 and in Codex, from memory
const MILK_KG_PER_L = 1.03; // whole milk at 20 °C; our own rounding, 0.3 %
const PH_FALL_AT_MAXIMUM = 0.075; // 0.05-0.10 at 0.02 %, from memory

/** Density of calcium chloride solutions at 20 °C, percent by mass against kg/L: from memory. */
const SOLUTION_DENSITY = [
  [0, 0.998], // from memory
  [10, 1.084], // from memory
  [20, 1.178], // from memory
  [30, 1.282], // from memory
  [33, 1.316], // from memory
  [35, 1.338], // from memory
  [40, 1.396], // from memory
] as const;

export const calciumValidity: Validity = {
  solutionPercent: { low: 1, high: 40, unit: '%', source: 'solutions by mass up to near saturation at 20 °C' },
  gPerL: { low: 0, high: 1, unit: 'g/L', source: 'five times the legal maximum (our own bound)' },
  milkL: { low: 0.05, high: 2000, unit: 'L', source: 'kitchen test to small dairy (our own bounds)' },
};

/** Density of a calcium chloride solution [kg/L] from percent by mass, linear between table rows (kernel, unchecked). */
export function calciumSolutionDensityKgPerL(solutionPercent: number): number {
  let lowPercent = 0;
  let lowDensity = 0.998;
  for (const [percent, density] of SOLUTION_DENSITY) {
    if (percent >= solutionPercent && percent > lowPercent) {
      return lowDensity + ((density - lowDensity) * (solutionPercent - lowPercent)) / (percent - lowPercent);
    }
    lowPercent = percent;
    lowDensity = density;
  }
  return lowDensity;
}

/** Added calcium [mmol/L of milk] from anhydrous calcium chloride [g/L of milk] (kernel, unchecked). */
export function addedCalciumMM(gPerL: number): number {
  return (1000 * gPerL) / ANHYDROUS_G_PER_MOL;
}

/** Fall of the milk's pH when calcium chloride [g/L, anhydrous] goes in; 0.075 at the legal maximum, 0.025 either way (kernel, unchecked; from memory). */
export function calciumPHFall(gPerL: number): number {
  return (PH_FALL_AT_MAXIMUM * gPerL) / (LEGAL_MAXIMUM_G_PER_KG * MILK_KG_PER_L);
}

export interface CalciumDose {
  /** Anhydrous calcium chloride altogether [g]. */
  readonly anhydrousG: number;
  /** The same as dihydrate crystals [g]. */
  readonly dihydrateG: number;
  /** Of the solution [mL]. */
  readonly volumeMl: number;
  readonly addedCalciumMM: number;
  readonly percentOfLegalMaximum: number;
  readonly pHFall: number;
}

/**
 * How much of a calcium chloride solution to add.
 *
 * volume = gPerL * milkL / (percent/100 * density); 1 L of milk counts as 1.03 kg.
 *
 * @param input.milkL  [L], 0.05 to 2000
 * @param input.solutionPercent  anhydrous calcium chloride by mass [%], 1 to 40
 * @param input.gPerL  anhydrous per litre of milk [g/L], 0 to 1; the legal maximum is 0.206
 * @returns mass, volume, mmol/L, percent of the legal maximum (0.2 g per kg of milk) and the fall of pH
 * Valid: as `calciumValidity`. Uncertainty: 2 % of the volume (densities from memory), a third of the fall of pH.
 * @throws InputError naming every field that does not fit
 * @source 21 CFR 133.189, text read; the same limit in Codex from memory, not seen
 */
export function calciumDose(input: { milkL: number; solutionPercent: number; gPerL: number }): CalciumDose {
  requireWithin(calciumValidity, { ...input });
  const anhydrousG = input.gPerL * input.milkL;
  const gPerMl = (input.solutionPercent / 100) * calciumSolutionDensityKgPerL(input.solutionPercent);
  return {
    anhydrousG,
    dihydrateG: (anhydrousG * DIHYDRATE_G_PER_MOL) / ANHYDROUS_G_PER_MOL,
    volumeMl: anhydrousG / gPerMl,
    addedCalciumMM: addedCalciumMM(input.gPerL),
    percentOfLegalMaximum: (100 * input.gPerL) / MILK_KG_PER_L / LEGAL_MAXIMUM_G_PER_KG,
    pHFall: calciumPHFall(input.gPerL),
  };
}
