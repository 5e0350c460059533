/**
 * How fast Listeria monocytogenes can grow in a cheese, by two published equations, and how far in a number of days.
 * An estimate for comparing, without lag and without competition; no test, and no verdict.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';
import { type Cardinals, cardinalShare, log10PerDay } from './growth.ts';

/** What the germ lives in: the warmest, least acid and moistest the cheese will be. */
export interface ListeriaHabitat {
  readonly temperatureC: number;
  readonly pH: number;
  readonly waterActivity: number;
  /** Lactic acid and lactate in the water of the cheese [mmol/L]; left out, no help is credited. */
  readonly lacticMM?: number;
}

// Augustin et al. 2005, J. Appl. Microbiol. 99:1019, parameters as tabulated by Mejlholm et al. 2010, seen in a model library
const DAIRY_RATE_PER_H = 0.742; // same
const TEMPERATURE_CARDINALS: Cardinals = { min: -1.72, best: 37, max: 45.5 }; // same
const PH_CARDINALS: Cardinals = { min: 4.71, best: 7.1, max: 9.61 }; // same
const ACTIVITY_LIMITS = { min: 0.913, best: 0.997 } as const; // same

// Mejlholm & Dalgaard 2009, J. Food Prot. 72:2132, equations seen in a public script; smoke, nitrite and other acids left out
const INTERACTION_RATE_PER_H = 0.419; // same, at 25 °C
const INTERACTION_MIN_C = -2.83; // same
const INTERACTION_SPAN_C = 27.83; // same
const INTERACTION_MIN_ACTIVITY = 0.923; // same
const INTERACTION_MIN_PH = 4.97; // same
const LARGEST_UNDISSOCIATED_MM = 3.79; // same
const LACTIC_PKA = 3.86; // same
const UPPER_FACTOR = 2; // our own choice: accuracy factor of such models about 1.5 (from memory), and fresh white cheese outran the mean
const LARGEST_LOG10_PER_G = 7.8; // highest count seen in fresh cheese: Leggett et al. 2012, J. Food Saf. 32:236, abstract seen
export const LEAST_START_LOG10_PER_G = -1.4; // one cell in 25 g, what a test just finds: arithmetic, our own choice

const GRAMS_PER_MMOL_LACTIC = 0.09008; // lactic acid 90.08 g/mol

export const listeriaValidity: Validity = {
  temperatureC: { low: -1.7, high: 45.5, unit: '°C', source: 'Augustin et al. (2005), range of its temperatures' },
  pH: { low: 3.5, high: 9.6, unit: 'pH', source: 'Augustin et al. (2005): no growth below 4.71; our own low end' },
  waterActivity: { low: 0.8, high: 1, unit: '-', source: 'Augustin et al. (2005): none below 0.913; our own low end' },
};

/** The three shares of model A: temperature, pH and water activity, each 0 to 1 (kernel). */
export function dairyShares(habitat: ListeriaHabitat): {
  readonly temperature: number;
  readonly pH: number;
  readonly activity: number;
} {
  const { min, best } = ACTIVITY_LIMITS;
  return {
    temperature: cardinalShare({ at: habitat.temperatureC, cardinals: TEMPERATURE_CARDINALS, order: 2 }),
    pH: cardinalShare({ at: habitat.pH, cardinals: PH_CARDINALS, order: 1 }),
    activity: Math.min(1, Math.max(0, (habitat.waterActivity - min) / (best - min))),
  };
}

/**
 * Growth rate in a dairy food, each condition for itself (model A; kernel, unchecked): 0.742 times the three shares.
 * @param habitat temperature [°C], pH, water activity; no credit for lactate
 * @returns natural-log rate [1/h]: an upper view
 * @source Augustin et al. (2005) J. Appl. Microbiol. 99:1019, parameters seen in a model library
 */
export function dairyRateKernel(habitat: ListeriaHabitat): number {
  const share = dairyShares(habitat);
  return DAIRY_RATE_PER_H * share.temperature * share.pH * share.activity;
}

/** Undissociated lactic acid [mmol/L of water]: C / (1 + 10^(pH - 3.86)) (kernel). */
export const undissociatedLacticMM = (input: { readonly lacticMM: number; readonly pH: number }): number =>
  input.lacticMM / (1 + 10 ** (input.pH - LACTIC_PKA));

/** Lactic acid in the water [mmol/L] from grams in 100 g of water; a litre of it counts as a kilogram. */
export const lacticMMFromPercent = (lacticInMoisturePercent: number): number =>
  (10 * lacticInMoisturePercent) / GRAMS_PER_MMOL_LACTIC;

export interface InteractionRate {
  /** Natural-log rate [1/h]. */
  readonly ratePerH: number;
  /** How hard the hurdles press together: from 1 on nothing grows. */
  readonly psi: number;
  readonly undissociatedMM: number;
}

/**
 * Growth rate with undissociated lactic acid, and hurdles that strengthen each other (model B; kernel, unchecked).
 *
 * mu = 0.419 ((T + 2.83)/27.83)^2 (aw - 0.923)/0.077 (1 - 10^(4.97 - pH)) (1 - U/3.79) xi; xi falls from 1 at psi 0.5 to 0 at 1,
 * psi = sum of phi_i / (2 prod over j not i of (1 - phi_j)).
 *
 * @param habitat temperature [°C], pH, water activity, lactic acid in the water [mmol/L]
 * @returns rate [1/h], psi and undissociated acid [mmol/L]
 * @source Mejlholm & Dalgaard (2009) J. Food Prot. 72:2132, equations seen in a public script that cites it; built on
 *   seafood and meat
 */
export function interactionRateKernel(habitat: ListeriaHabitat): InteractionRate {
  const warmth = (habitat.temperatureC - INTERACTION_MIN_C) / INTERACTION_SPAN_C;
  const activity = (habitat.waterActivity - INTERACTION_MIN_ACTIVITY) / (1 - INTERACTION_MIN_ACTIVITY);
  const acidity = 1 - 10 ** (INTERACTION_MIN_PH - habitat.pH);
  const undissociatedMM = undissociatedLacticMM({ lacticMM: habitat.lacticMM ?? 0, pH: habitat.pH });
  const lactic = 1 - undissociatedMM / LARGEST_UNDISSOCIATED_MM;
  if (!(warmth > 0 && activity > 0 && acidity > 0 && lactic > 0)) {
    return { ratePerH: 0, psi: Number.POSITIVE_INFINITY, undissociatedMM };
  }
  const phi = [
    (1 - Math.min(1, warmth)) ** 2,
    (1 - Math.sqrt(Math.min(1, activity))) ** 2,
    (1 - Math.sqrt(acidity)) ** 2,
    undissociatedMM / LARGEST_UNDISSOCIATED_MM,
  ];
  const open = phi.reduce((product, each) => product * (1 - each), 1);
  const psi = phi.reduce((sum, each) => sum + (each * (1 - each)) / (2 * open), 0);
  const together = psi <= 0.5 ? 1 : psi >= 1 ? 0 : 2 * (1 - psi);
  return {
    ratePerH: INTERACTION_RATE_PER_H * warmth ** 2 * activity * acidity * lactic * together,
    psi,
    undissociatedMM,
  };
}

export interface ListeriaIncrease {
  /** Decimal steps [log10]. */
  readonly p50: number;
  readonly p95: number;
  /** No more than this counts: from the start assumed to the highest count seen. */
  readonly cap: number;
}

/** Kernel of `listeriaIncrease`: no checks. */
export function listeriaIncreaseKernel(
  input: ListeriaHabitat & { readonly days: number; readonly startLog10PerG?: number },
): ListeriaIncrease {
  const { days, startLog10PerG = LEAST_START_LOG10_PER_G } = input;
  const withoutLactic = interactionRateKernel({ ...input, lacticMM: 0 }).ratePerH;
  const upper = UPPER_FACTOR * Math.max(dairyRateKernel(input), withoutLactic);
  const ceiling = DAIRY_RATE_PER_H * dairyShares(input).temperature;
  const cap = Math.max(0, LARGEST_LOG10_PER_G - startLog10PerG);
  const steps = (ratePerH: number): number => Math.min(cap, log10PerDay(ratePerH) * days);
  const median = interactionRateKernel(input).ratePerH;
  // Near freezing the median model outruns the other's ceiling: a high end below the median would mislead.
  return { p50: steps(median), p95: steps(Math.max(median, Math.min(ceiling, upper))), cap };
}

/**
 * How many tenfold steps Listeria could grow in a cheese.
 *
 * Median: model B. High end: twice the higher of model A and model B without lactate, at most model A at its best pH and
 * water activity, but never below the median. No lag; both end at the highest count seen less the count at the start.
 *
 * @param input.temperatureC  warmest of the life [°C], -1.7 to 45.5
 * @param input.pH  highest of the life [-], 3.5 to 9.6
 * @param input.waterActivity  highest of the life [-], 0.8 to 1
 * @param input.lacticMM  measured lactic acid in the water [mmol/L], or nothing
 * @param input.days  [d], 0 or more
 * @param input.startLog10PerG  count at the start [log10 per g]; left out, one cell in 25 g
 * @returns decimal steps, median and high end, and the cap
 * Valid: as `listeriaValidity`. Uncertainty: the high end; fresh white cheese at 4 °C outran the median by half.
 * @throws InputError outside the range
 * @source as the two kernels; how they are combined is our own choice
 */
export function listeriaIncrease(
  input: ListeriaHabitat & { readonly days: number; readonly startLog10PerG?: number },
): ListeriaIncrease {
  const { temperatureC, pH, waterActivity } = input;
  requireWithin(listeriaValidity, { temperatureC, pH, waterActivity });
  return listeriaIncreaseKernel(input);
}
