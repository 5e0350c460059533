/**
 * The cultures as data: what they grow on, how fast, how sour they get, how they wake up and how many come in a dose.
 * Cell numbers and the acid rate per cell are only defined together (a chain of cocci counts as one): never change one alone.
 * Left out: rods and cocci apart, phage, strains. A culture lot learns its own activity from finished makes.
 */
import { InputError, outside, type Problem, type Validity } from '../numbers/validity.ts';

export const CULTURE_KINDS = [
  'thermophilic',
  'yoghurt',
  'thermophilic-helveticus',
  'mesophilic',
  'mesophilic-aromatic',
  'kefir',
] as const;
export type CultureKind = (typeof CULTURE_KINDS)[number];

export const CULTURE_FORMS = ['bulk', 'frozen', 'freeze-dried', 'whey'] as const;
export type CultureForm = (typeof CULTURE_FORMS)[number];

/** Everything the acid model knows of a culture. */
export interface CultureTraits {
  readonly temperatureMinC: number;
  readonly temperatureOptC: number;
  readonly temperatureMaxC: number;
  readonly growthPHMin: number;
  readonly growthPHOpt: number;
  readonly acidPHStop: number;
  readonly acidPHOpt: number;
  readonly growthRatePerHour: number;
  /** mmol lactate per CFU and hour. */
  readonly acidRateMmolPerCfuHour: number;
  readonly cellsMaxPerL: number;
  /** Share of the acid rate that goes on without growth. */
  readonly growthFreeFraction: number;
  /** mmol lactate from a mmol of lactose. */
  readonly lactatePerLactose: number;
}

// growthRate, acidRate, cellsMax, growthFree, growthPHMin (and Topt, Tmax of the lactococci): our own fit to 16 published
// runs. Cardinal temperatures and pH of the thermophiles: from memory. Lactate per lactose: 4 for lactococci, 2 where galactose
// is left, from memory. Helveticus differs from thermophilic by Tmax, pH limits and yield (from memory and one Swiss run).
// Kefir: a coarse adaptation, one check only.
const THERMOPHILIC: CultureTraits = {
  temperatureMinC: 18,
  temperatureOptC: 42,
  temperatureMaxC: 51,
  growthPHMin: 4.45,
  growthPHOpt: 6.5,
  acidPHStop: 4.2,
  acidPHOpt: 6.2,
  growthRatePerHour: 1.9,
  acidRateMmolPerCfuHour: 4.4e-11,
  cellsMaxPerL: 1.85e12,
  growthFreeFraction: 0.58,
  lactatePerLactose: 2,
};
const MESOPHILIC: CultureTraits = {
  temperatureMinC: 4,
  temperatureOptC: 31,
  temperatureMaxC: 40.5,
  growthPHMin: 4.55,
  growthPHOpt: 6.4,
  acidPHStop: 4.2,
  acidPHOpt: 6.2,
  growthRatePerHour: 1.07,
  acidRateMmolPerCfuHour: 3.7e-11,
  cellsMaxPerL: 2.7e12,
  growthFreeFraction: 0.45,
  lactatePerLactose: 4,
};
const WITH_RODS = { temperatureOptC: 43, growthPHMin: 4.3, growthPHOpt: 6.4, acidPHStop: 3.8, acidPHOpt: 6 };
const AROMATIC: CultureTraits = {
  ...MESOPHILIC,
  temperatureOptC: 29,
  temperatureMaxC: 39.5,
  growthRatePerHour: 0.92,
  acidRateMmolPerCfuHour: 1.6e-11,
};

/** Typical traits of each kind. Spread between lots: `cultureSpread`. */
export const CULTURES: Readonly<Record<CultureKind, CultureTraits>> = {
  thermophilic: THERMOPHILIC,
  yoghurt: {
    ...THERMOPHILIC,
    ...WITH_RODS,
    temperatureMaxC: 52,
    growthRatePerHour: 1.54,
    acidRateMmolPerCfuHour: 1.02e-10,
  },
  'thermophilic-helveticus': { ...THERMOPHILIC, ...WITH_RODS, temperatureMaxC: 54, lactatePerLactose: 2.6 },
  mesophilic: MESOPHILIC,
  'mesophilic-aromatic': AROMATIC,
  kefir: {
    ...AROMATIC,
    temperatureMinC: 5,
    temperatureOptC: 28,
    temperatureMaxC: 40,
    growthPHMin: 4.3,
    growthPHOpt: 6.3,
    acidPHStop: 3.7,
    acidPHOpt: 6,
    lactatePerLactose: 3,
  },
};

/** Standard deviations between lots of one kind; the kind's own for temperature limits. */
export const CULTURE_SPREAD = {
  growthRateLnSd: 0.1, // our own fit's prior
  acidRateLnSd: 0.15, // our own fit's prior
  thermophilic: { temperatureMinSdC: 3, temperatureOptSdC: 1, temperatureMaxSdC: 1 }, // from memory
  mesophilic: { temperatureMinSdC: 2, temperatureOptSdC: 1.5, temperatureMaxSdC: 0.7 }, // from memory and our own fit
} as const;

/** Spread of the cardinal temperatures of a kind [°C]. */
export function temperatureSpread(kind: CultureKind): {
  readonly temperatureMinSdC: number;
  readonly temperatureOptSdC: number;
  readonly temperatureMaxSdC: number;
} {
  return CULTURES[kind].temperatureMinC >= 18 ? CULTURE_SPREAD.thermophilic : CULTURE_SPREAD.mesophilic;
}

/** How much waking up a form needs: h0 = growth rate x lag, ln-normal about the median. */
export interface LagPrior {
  readonly medianWork: number;
  readonly lnSd: number;
}

// Practice-level priors, common practice (no source); a trial that saw no acid lag in freeze-dried starters (Int. J. Dairy
// Technol. 1978, 31:99, abstract seen) is why the spread is wide.
const LAG: Readonly<Record<CultureForm, LagPrior>> = {
  bulk: { medianWork: 0.3, lnSd: 0.5 },
  whey: { medianWork: 0.3, lnSd: 0.5 },
  frozen: { medianWork: 0.5, lnSd: 0.5 },
  'freeze-dried': { medianWork: 1.2, lnSd: 0.5 },
};
const OLD_OR_SHOCKED: LagPrior = { medianWork: 2.5, lnSd: 0.7 }; // common practice (no source)

/**
 * The lag of a culture by its form: h0, the work to do before growth is at full speed (lag = h0 / growth rate).
 *
 * @param culture.form  bulk (active starter), whey, frozen, freeze-dried
 * @param culture.isOld  old, stored warm or cold-shocked; false by default
 * @returns median and ln-standard deviation of h0 [-]
 * Uncertainty: the returned spread.
 * @source common practice (no source); Baranyi and Roberts (1994), Int. J. Food Microbiol. 23:277, from memory
 */
export function lagOf(culture: { readonly form: CultureForm; readonly isOld?: boolean }): LagPrior {
  return culture.isOld === true ? OLD_OR_SHOCKED : LAG[culture.form];
}

/** Dose: one of the two. A packet fraction of 1 is the packet's stated dose for this much milk. */
export type CultureDose = { readonly packetFraction: number } | { readonly percentBulk: number };

const PACKET_CELLS_PER_L = 5e9; // 5e6 per mL (3e6 to 2e7), common practice (no source)
const BULK_CELLS_PER_L = 1e12; // ripe starter near 1e9 per mL (1e8 to 1e9 viable, a review's abstract seen)

/** ln-standard deviation of dose x activity: a culture whose dose is known, and a make of unknown routine. */
export const DOSE_LN_SD = { known: 0.45, unknownRoutine: 0.55, learnedLot: 0.2 } as const; // our own choice

export const doseValidity: Validity = {
  packetFraction: { low: 0.02, high: 10, unit: 'of the packet dose', source: 'a spoon tip to ten times the dose' },
  percentBulk: { low: 0.05, high: 10, unit: '% of the milk', source: 'starter doses of practice, 0.1 to 5 %' },
};

/** Kernel of `initialCellsPerL`: no checks. */
export function initialCellsKernel(dose: CultureDose): number {
  return 'packetFraction' in dose
    ? PACKET_CELLS_PER_L * dose.packetFraction
    : (BULK_CELLS_PER_L * dose.percentBulk) / 100;
}

/**
 * Starter cells in the milk right after the dose.
 *
 * Packet: 5e6 CFU/mL x fraction. Bulk or whey starter: 1e7 CFU/mL for each percent.
 *
 * @param dose.packetFraction  share of the packet's stated dose [-], 0.02 to 10
 * @param dose.percentBulk  active starter, percent of the milk [%], 0.05 to 10
 * @returns cells [CFU per L of milk]
 * Valid: as `doseValidity`. Uncertainty: `DOSE_LN_SD.known`, a factor of about 2 each way at 90 %.
 * @throws InputError outside the range
 * @source common practice (no source); starter counts: a review's abstract seen
 */
export function initialCellsPerL(dose: CultureDose): number {
  const problems: Problem[] = outside(doseValidity, { ...dose });
  if (problems.length > 0) throw new InputError(problems);
  return initialCellsKernel(dose);
}
