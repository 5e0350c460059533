/**
 * Whey leaving the curd: how fast, how far, and what stays behind.
 *
 * Only the first-order form and the activation energy are published; the rate at 32 °C, the effects of size, pH and stirring
 * and how far it goes are our own numbers that give plausible curves. Show curd moisture with at least
 * `CURD_MOISTURE_ERROR` until it is fitted to the maker's own whey volumes. Mass balance of the curd: `curd.ts`.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';

export const STIRRING = ['still', 'gentle', 'drained'] as const;
export type Stirring = (typeof STIRRING)[number];

export interface SyneresisState {
  temperatureC: number;
  /** Of the curd. */
  pH: number;
  /** Edge of the cubes as cut [mm]. */
  cubeMm: number;
  stirring: Stirring;
}

const RATE_AT_32_PER_MIN = 0.03; // our own choice
const REFERENCE_K = 305.15; // 32 °C
const ACTIVATION_J_PER_MOL = 100_000; // about 100 kJ/mol, 20-50 °C: Huber et al. 2001, Milchwissenschaft 56:549, abstract seen
const GAS_CONSTANT = 8.314; // J/(mol K)
const SKIN_K = 323.15; // no gain above 50 °C, a skin forms: same source
const REFERENCE_CUBE_MM = 10; // our own choice
const PH_SLOPE = 1.2; // per unit below 6.5; direction published (abstract seen), size our own
const REFERENCE_PH = 6.5; // our own choice
/** Still, gently stirred, drained on cloth: our own choice. */
export const STIRRING_FACTOR: Readonly<Record<Stirring, number>> = { still: 0.6, gentle: 1, drained: 2 };

export const WHEY_FAMILIES = [
  'bloomy',
  'washed',
  'cheddar',
  'alpine',
  'stretched',
  'fresh',
  'brined',
  'lactic',
  'cottage',
] as const;
export type WheyFamily = (typeof WHEY_FAMILIES)[number];
/**
 * Share of the milk's mass that has left as whey when syneresis comes to rest, for milk that gives 5.75 kg of fat and
 * casein in the curd per 100 kg (cow's of about 3.5 % fat). A make file sets its own; these are the families' defaults.
 */
export const WHEY_END_FRACTION: Readonly<Record<WheyFamily, number>> = {
  bloomy: 0.82, // our own choice
  washed: 0.86, // our own choice
  cheddar: 0.87, // our own choice
  alpine: 0.89, // our own choice
  stretched: 0.865, // our own choice: curd of 53-54 % moisture at the stretch; soft ball 0.86, firm string 0.88
  fresh: 0.84, // our own choice
  brined: 0.85, // our own choice
  lactic: 0.77, // our own choice
  cottage: 0.83, // our own choice, before washing
};
const REFERENCE_GEL_SOLIDS_KG = 5.75; // per 100 kg of milk; our own choice, with the fractions above

/** What is not known about curd moisture until the maker's own whey volumes have been used. */
export const CURD_MOISTURE_ERROR = {
  halfWidthPoints: 8, // 90 % band, our own statement: "at least"
  wheyEndFractionSd: 0.0175, // gives 8 moisture points at 90 % for curd of 54 %; our own arithmetic
  rateLnSd: 0.35, // of the rate constant; our own choice
} as const;

export const syneresisValidity: Validity = {
  temperatureC: { low: 18, high: 60, unit: '°C', source: 'Huber et al. 2001: 20-50 °C; no gain above 50' },
  pH: { low: 4.6, high: 6.8, unit: 'pH', source: 'lactic to sweet curd (our own bounds)' },
  cubeMm: { low: 3, high: 60, unit: 'mm', source: 'rice grain to slabs (our own bounds)' },
  minutes: { low: 0, high: 1440, unit: 'min', source: 'a day (our own bound)' },
  wheyEndFraction: { low: 0.5, high: 0.95, unit: '', source: 'softest to hardest curd (our own bounds)' },
};

/** `STIRRING_FACTOR` by comparison: a look-up by name costs as much as the exponential beside it. */
const stirringFactor = (stirring: Stirring): number =>
  stirring === 'still'
    ? STIRRING_FACTOR.still
    : stirring === 'gentle'
      ? STIRRING_FACTOR.gentle
      : STIRRING_FACTOR.drained;

/** Kernel of `syneresisRate`: no checks, allocates nothing. */
export function syneresisRatePerMin(state: SyneresisState): number {
  const kelvin = Math.min(state.temperatureC + 273.15, SKIN_K);
  return (
    RATE_AT_32_PER_MIN *
    stirringFactor(state.stirring) *
    (REFERENCE_CUBE_MM / state.cubeMm) *
    Math.exp(
      (-ACTIVATION_J_PER_MOL / GAS_CONSTANT) * (1 / kelvin - 1 / REFERENCE_K) + PH_SLOPE * (REFERENCE_PH - state.pH),
    )
  );
}

/**
 * How fast whey leaves the curd at this moment.
 *
 * k = 0.030 s (10/d) exp[-(E/R)(1/T - 1/305.15)] exp[1.2(6.5 - pH)] per minute, E = 100 kJ/mol, T no higher than 50 °C.
 *
 * @param state.temperatureC  [°C], 18 to 60
 * @param state.pH  of the curd [-], 4.6 to 6.8
 * @param state.cubeMm  edge of the cubes [mm], 3 to 60
 * @param state.stirring  still, gentle or drained
 * @returns first-order rate [1/min]
 * Valid: as `syneresisValidity`. Uncertainty: ln-sd 0.35 (our own statement).
 * @throws InputError naming every field that does not fit
 * @source Huber et al. (2001) Milchwissenschaft 56:549, activation energy, abstract seen; all other numbers our own
 */
export function syneresisRate(state: SyneresisState): number {
  requireWithin(syneresisValidity, { temperatureC: state.temperatureC, pH: state.pH, cubeMm: state.cubeMm });
  return syneresisRatePerMin(state);
}

/**
 * Share of the milk's mass expelled after a step at constant rate (kernel, unchecked): exact for any step length.
 *
 * W(t) = Wend - (Wend - W0) exp(-k t). Whey never goes back into the curd: where W0 is past Wend it stays.
 *
 * @param step.wheyFraction  W0, already expelled [-]
 * @param step.wheyEndFraction  where it comes to rest [-], from `wheyEndFractionFor`
 * @param step.ratePerMin  from `syneresisRatePerMin` [1/min]
 * @param step.minutes  [min]
 * @returns share expelled [-]
 * @source first order: abstracts on cow and goat curd (Castillo et al. 2000, Milchwissenschaft 55:566), seen
 */
export function wheyFractionAfter(step: {
  wheyFraction: number;
  wheyEndFraction: number;
  ratePerMin: number;
  minutes: number;
}): number {
  const left = step.wheyEndFraction - step.wheyFraction;
  return left <= 0 ? step.wheyFraction : step.wheyEndFraction - left * Math.exp(-step.ratePerMin * step.minutes);
}

/**
 * Where syneresis comes to rest in this milk (kernel, unchecked): the curd ends at the same moisture whatever the milk's
 * richness, so richer milk ends with more curd. 1 - (1 - Wref) N/5.75.
 *
 * @param input.wheyEndFraction  of the reference milk [-], from the make file or `WHEY_END_FRACTION`
 * @param input.gelSolidsKg  fat, casein and bound minerals kept in the curd per 100 kg of this milk [kg], from `curdBasis`
 * @returns share of this milk's mass expelled at rest [-]
 * @source our own choice
 */
export function wheyEndFractionFor(input: { wheyEndFraction: number; gelSolidsKg: number }): number {
  return 1 - ((1 - input.wheyEndFraction) * input.gelSolidsKg) / REFERENCE_GEL_SOLIDS_KG;
}
