/**
 * What is in the milk: composition of cow, goat, sheep and buffalo milk, its salts, density and specific heat.
 * Known figures of the maker's own milk replace the species means; what is not known follows from what is.
 * Left out: breed, season and stage of lactation (they move fat and protein; measure or read the carton).
 */
import { InputError, outside, type Problem, type Validity } from '../numbers/validity.ts';
import { specificHeatKernel } from './properties.ts';

export const MILK_SPECIES = ['cow', 'goat', 'sheep', 'buffalo'] as const;
export type MilkSpecies = (typeof MILK_SPECIES)[number];

export interface MilkInput {
  readonly species: MilkSpecies;
  readonly fatPercent?: number;
  /** Crude protein as a carton or laboratory states it (total nitrogen x 6.38). */
  readonly proteinPercent?: number;
  readonly caseinPercent?: number;
  readonly lactosePercent?: number;
  readonly pH?: number;
}

/** Percents by mass; MM is mmol per litre of milk. */
export interface MilkComposition {
  readonly species: MilkSpecies;
  readonly fatPercent: number;
  readonly proteinPercent: number;
  readonly caseinPercent: number;
  /** True whey protein: crude protein less casein and non-protein nitrogen. */
  readonly wheyProteinPercent: number;
  readonly lactosePercent: number;
  readonly ashPercent: number;
  readonly waterPercent: number;
  readonly solidsNotFatPercent: number;
  readonly pH: number;
  readonly caseinGPerL: number;
  readonly wheyProteinGPerL: number;
  readonly lactoseMM: number;
  readonly solublePhosphateMM: number;
  readonly citrateMM: number;
  readonly colloidalPhosphateMM: number;
  readonly calciumMM: number;
}

/** Species means, mass percents; `caseinShare` is casein as a fraction of crude protein. */
interface SpeciesMeans {
  readonly fat: number;
  readonly protein: number;
  readonly lactose: number;
  readonly ash: number;
  readonly solids: number;
  readonly pH: number;
  readonly caseinShare: number;
}

// Mahmood and Usman (2010), Pakistan J. Nutrition 9:1192, table seen (one region; standard deviations of fat 0.43, 0.51,
// 0.23, 0.44 and of protein 0.32, 0.32, 0.29, 0.23). Casein share: cow 2.48/3.17 of 48 factories (Thom and Fisk 1918, The
// Book of Cheese, Table VI, seen); the others the middle of ranges from memory (0.74-0.80, 0.78-0.82, 0.78-0.82).
const MEANS: Readonly<Record<MilkSpecies, SpeciesMeans>> = {
  cow: { fat: 4.0, protein: 3.37, lactose: 4.51, ash: 0.6, solids: 12.94, pH: 6.64, caseinShare: 0.78 },
  goat: { fat: 3.97, protein: 3.15, lactose: 4.39, ash: 0.75, solids: 12.84, pH: 6.55, caseinShare: 0.77 },
  sheep: { fat: 6.49, protein: 5.3, lactose: 4.77, ash: 0.88, solids: 18.13, pH: 6.63, caseinShare: 0.8 },
  buffalo: { fat: 7.97, protein: 4.36, lactose: 5.41, ash: 0.81, solids: 18.45, pH: 6.75, caseinShare: 0.8 },
};

/** Salts in mmol per litre of milk that holds `atCaseinGPerL` of casein; the colloidal ones follow the casein. */
interface Salts {
  readonly solublePhosphate: number;
  readonly citrate: number;
  readonly colloidalPhosphate: number;
  readonly calcium: number;
  readonly atCaseinGPerL: number;
}

// Cow: 1200 mg/L calcium, 43 % of inorganic phosphate soluble: Fox and McSweeney (1998), Dairy Chemistry and Biochemistry
// p. 254, seen. Citrate and the other species from memory, within 8 %.
const SALTS: Readonly<Record<MilkSpecies, Salts>> = {
  cow: { solublePhosphate: 10.5, citrate: 8.5, colloidalPhosphate: 10.5, calcium: 30, atCaseinGPerL: 26 },
  goat: { solublePhosphate: 10.5, citrate: 6.5, colloidalPhosphate: 10.5, calcium: 32, atCaseinGPerL: 25 },
  sheep: { solublePhosphate: 12, citrate: 8, colloidalPhosphate: 19, calcium: 50, atCaseinGPerL: 45 },
  buffalo: { solublePhosphate: 11, citrate: 8.5, colloidalPhosphate: 17, calcium: 45, atCaseinGPerL: 37 },
};

const NON_PROTEIN_NITROGEN_FRACTION = 0.05; // of crude protein, from memory
const CASEIN_PER_FAT_OF_RICH_COW_MILK = 0.4; // Thom and Fisk 1918, The Book of Cheese, Table XI: casein = 0.4 fat + 0.9, fat 3 to 5, seen
const RICH_COW_MILK_FAT_HIGH_PERCENT = 5; // upper end of the same table
const SOLUBLE_CALCIUM_FRACTION = 0.34; // Fox and McSweeney 1998 p. 254, cow, seen
export const LACTOSE_G_PER_MOL = 342.3; // anhydrous
const CASEIN_OF_PROTEIN_HIGH = 0.9; // our own limit: 88 % has been printed and is already implausible

export const milkValidity: Validity = {
  fatPercent: { low: 0, high: 15, unit: '%', source: 'skim to the richest sheep and buffalo milk; cream is not milk' },
  proteinPercent: { low: 1.5, high: 9, unit: '%', source: 'our own bounds around the four milks' },
  caseinPercent: { low: 1, high: 8, unit: '%', source: 'sheep milk reaches 8 % (Thom and Fisk 1918, Table V)' },
  lactosePercent: { low: 2, high: 6.5, unit: '%', source: 'our own bounds around the four milks' },
  pH: { low: 6, high: 7, unit: 'pH', source: 'fresh to slightly soured milk (our own bounds)' },
};

export const milkDensityValidity: Validity = {
  fatPercent: { low: 0, high: 50, unit: '%', source: 'skim to cream' },
  solidsNotFatPercent: { low: 0, high: 20, unit: '%', source: 'whey to concentrated milk' },
  temperatureC: { low: 0, high: 75, unit: '°C', source: 'measured 1 to 44 °C, extended to pasteurising heat' },
};

/** Kernel of `milkComposition`: no checks. */
export function milkCompositionKernel(input: MilkInput): MilkComposition {
  const mean = MEANS[input.species];
  const salts = SALTS[input.species];
  const fatPercent = input.fatPercent ?? mean.fat;
  const caseinShare = mean.caseinShare;
  // Skimming or adding cream leaves the fat-free part alone; richer cow's milk is assumed to be naturally rich.
  const rich =
    input.species === 'cow' ? Math.max(0, Math.min(fatPercent, RICH_COW_MILK_FAT_HIGH_PERCENT) - mean.fat) : 0;
  const fatFree = (100 - fatPercent) / (100 - mean.fat - rich);
  const usualProtein = (mean.protein + (rich * CASEIN_PER_FAT_OF_RICH_COW_MILK) / caseinShare) * fatFree;
  const proteinPercent =
    input.proteinPercent ?? (input.caseinPercent === undefined ? usualProtein : input.caseinPercent / caseinShare);
  const caseinPercent = input.caseinPercent ?? proteinPercent * caseinShare;
  const lactosePercent = input.lactosePercent ?? mean.lactose * fatFree;
  const ashPercent = mean.ash * fatFree;
  const counted = mean.fat + mean.protein + mean.lactose + mean.ash;
  const otherPercent = Math.max(0, mean.solids - counted) * fatFree; // citrate and what the analyses missed
  const solidsNotFatPercent = proteinPercent + lactosePercent + ashPercent + otherPercent;
  const wheyProteinPercent = Math.max(0, proteinPercent * (1 - NON_PROTEIN_NITROGEN_FRACTION) - caseinPercent);
  const gPerLPerPercent = milkDensityKernel({ fatPercent, solidsNotFatPercent, temperatureC: 20 }) / 100;
  const caseinGPerL = caseinPercent * gPerLPerPercent;
  const caseinFactor = caseinGPerL / salts.atCaseinGPerL;
  return {
    species: input.species,
    fatPercent,
    proteinPercent,
    caseinPercent,
    wheyProteinPercent,
    lactosePercent,
    ashPercent,
    waterPercent: 100 - fatPercent - solidsNotFatPercent,
    solidsNotFatPercent,
    pH: input.pH ?? mean.pH,
    caseinGPerL,
    wheyProteinGPerL: wheyProteinPercent * gPerLPerPercent,
    lactoseMM: (lactosePercent * gPerLPerPercent * 1000) / LACTOSE_G_PER_MOL,
    solublePhosphateMM: salts.solublePhosphate,
    citrateMM: salts.citrate,
    colloidalPhosphateMM: salts.colloidalPhosphate * caseinFactor,
    calciumMM: salts.calcium * (SOLUBLE_CALCIUM_FRACTION + (1 - SOLUBLE_CALCIUM_FRACTION) * caseinFactor),
  };
}

/**
 * What is in this milk, from what is known of it: species means where nothing is known.
 *
 * Casein = share x protein (cow 0.78, goat 0.77, sheep and buffalo 0.80). From fat alone: below the species' mean the
 * milk counts as skimmed (fat-free part unchanged); cow's milk of 4 to 5 % fat counts as naturally rich, with 0.4 %
 * casein more for each percent of fat; above 5 % as milk with cream. Colloidal phosphate and bound calcium follow casein.
 *
 * @param input.species  cow, goat, sheep or buffalo
 * @param input.fatPercent  [%], 0 to 15
 * @param input.proteinPercent  crude protein [%], 1.5 to 9
 * @param input.caseinPercent  [%], 1 to 8
 * @param input.lactosePercent  [%], 2 to 6.5
 * @param input.pH  [-], 6 to 7
 * @returns composition by mass percent, and per litre of milk what buffers and ferments
 * Valid: as `milkValidity`. Uncertainty: 10 % of protein between milks of a species; salts 8 %.
 * @throws InputError naming every field that does not fit
 * @source 1. Mahmood and Usman (2010), Pakistan J. Nutrition 9:1192, table seen. 2. Thom and Fisk (1918), The Book of Cheese,
 * Tables V, VI, XI, seen. 3. Fox and McSweeney (1998) p. 254, seen; salts of the other
 * species from memory, not seen.
 */
export function milkComposition(input: MilkInput): MilkComposition {
  const { fatPercent, proteinPercent, caseinPercent, lactosePercent, pH } = input;
  const problems: Problem[] = outside(milkValidity, { fatPercent, proteinPercent, caseinPercent, lactosePercent, pH });
  if (problems.length === 0 && caseinPercent !== undefined && proteinPercent !== undefined) {
    if (caseinPercent > CASEIN_OF_PROTEIN_HIGH * proteinPercent) {
      problems.push({
        code: 'contradiction',
        field: 'caseinPercent',
        value: caseinPercent,
        unit: '%',
        expected: `at most ${CASEIN_OF_PROTEIN_HIGH} of the protein (${proteinPercent} %)`,
        remedy: 'Give the protein alone and let the casein follow, or check both.',
        source: 'casein shares of four milks, Thom and Fisk (1918) and from memory',
      });
    }
  }
  if (problems.length > 0) throw new InputError(problems);
  return milkCompositionKernel(input);
}

export interface MilkDensityInput {
  readonly fatPercent: number;
  readonly solidsNotFatPercent: number;
  readonly temperatureC: number;
}

/** Kernel of `milkDensityKgPerM3`: no checks. */
export function milkDensityKernel({ fatPercent, solidsNotFatPercent, temperatureC }: MilkDensityInput): number {
  // Density at 15 °C [g/mL]: old dairy formula, seen at second hand
  const at15 = 100 / (fatPercent / 0.93 + solidsNotFatPercent / 1.608 + (100 - fatPercent - solidsNotFatPercent));
  const t = Math.min(temperatureC, 20);
  const cool = -0.0002 * (t - 15) - 0.000012 * (t - 15) * (t - 10); // our own fit to published means at 5, 10, 15 °C
  const warm = -0.00038 * Math.max(0, temperatureC - 20); // published linear fall 18 to 44 °C, seen
  return 1000 * (at15 + cool + warm);
}

/**
 * How much a litre of this milk weighs.
 *
 * At 15 °C: 100 / (F/0.93 + SNF/1.608 + (100 - F - SNF)) g/mL; then a fall with temperature, 0.00038 per °C above 20 °C.
 *
 * @param input.fatPercent  [%], 0 to 50
 * @param input.solidsNotFatPercent  [%], 0 to 20
 * @param input.temperatureC  [°C], 0 to 75
 * @returns density [kg/m3]
 * Valid: as `milkDensityValidity`. Uncertainty: standard deviation 1 kg/m3 for milk to 44 °C, 2 above; cream of 30 % fat
 * at 10 °C comes out 6 kg/m3 light against a published line.
 * @throws InputError naming every field that does not fit
 * @source dairy formula for 15 °C and temperature means, seen at second hand; fit below 20 °C our own
 */
export function milkDensityKgPerM3(input: MilkDensityInput): number {
  const problems = outside(milkDensityValidity, { ...input });
  if (problems.length > 0) throw new InputError(problems);
  return milkDensityKernel(input);
}

/** Kernel of `milkSpecificHeatKJPerKgK`: no checks. */
export function milkSpecificHeatKernel(input: { composition: MilkComposition; temperatureC: number }): number {
  const { composition: milk, temperatureC } = input;
  const carbohydratePercent = milk.solidsNotFatPercent - milk.proteinPercent - milk.ashPercent;
  return specificHeatKernel({ composition: { ...milk, carbohydratePercent }, temperatureC });
}

/**
 * Heat needed to warm a kilogram of this milk by one degree: the Choi-Okos sum of its parts.
 *
 * @param input.composition  from `milkComposition`
 * @param input.temperatureC  [°C], 0 to 75
 * @returns specific heat [kJ/(kg K)], about 3.9 for whole milk
 * Valid: as `milkDensityValidity.temperatureC`. Uncertainty: 2 %; melting fat adds a little between 5 and 35 °C.
 * @throws InputError outside 0 to 75 °C
 * @source Choi and Okos (1986), coefficients seen at second hand
 */
export function milkSpecificHeatKJPerKgK(input: { composition: MilkComposition; temperatureC: number }): number {
  const problems = outside(milkDensityValidity, { temperatureC: input.temperatureC });
  if (problems.length > 0) throw new InputError(problems);
  return milkSpecificHeatKernel(input);
}
