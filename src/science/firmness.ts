/**
 * How firm the gel is, from flecks to cut. Covers rennet gels at rest; leaves out lactic gels, temperature (warmer sets
 * faster but weaker at an hour) and pH, whose sizes were not seen. Calibrated to one published band, without a test.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';

export interface FirmnessInput {
  /** Minutes since first flecks. */
  minutesSinceFlocculation: number;
  /** Minutes from rennet to first flecks. */
  clottingTimeMin: number;
  caseinPercent: number;
  /** 1, or from `HOMOGENISED_SOFTENING` and `HEAT_SOFTENING`, multiplied. */
  softening: number;
}

const FIRMING_TIME_FACTOR = 2.5; // of the clotting time; our own choice, with the next line
const FULL_FIRMNESS_PA = 150; // at 2.5 % casein; our own choice so that 2.75 x flocculation gives 36 Pa, inside 30-40 Pa at normal cutting ("Viscoelastic properties of coagulating milk", abstract seen)
const REFERENCE_CASEIN_PERCENT = 2.5; // Thom and Fisk 1918, Table I, seen
const CASEIN_EXPONENT = 2.3; // our own choice

/** Homogenised milk sets softer in curd-tension tests (J. Dairy Sci., abstract seen); an instrument saw the opposite (Guinee et al. 1997). */
export const HOMOGENISED_SOFTENING = 0.75; // our own choice of size
export const HEAT_SOFTENING = {
  raw: 1,
  pasteurised: 0.95, // "noticeable softer curd" (J. Dairy Sci., abstract seen); size our own
  'high-heat': 0.5, // firming strongly impaired after 75 °C: Ustunol and Brown 1985, abstract seen; size our own
  uht: 0, // no gel, from memory
} as const;

export const firmnessValidity: Validity = {
  minutesSinceFlocculation: { low: 0, high: 240, unit: 'min', source: 'vat practice (our own bounds)' },
  clottingTimeMin: { low: 2, high: 90, unit: 'min', source: 'vat practice (our own bounds)' },
  caseinPercent: { low: 1.8, high: 6.5, unit: '%', source: 'thin cow to rich sheep milk (our own bounds)' },
  softening: { low: 0, high: 2, unit: '', source: 'our own bounds' },
};

/** What the gel of this milk comes to in the end [Pa] (kernel): one power, so work it out once a milk. */
export function fullFirmnessPa(input: Pick<FirmnessInput, 'caseinPercent' | 'softening'>): number {
  return input.softening * FULL_FIRMNESS_PA * (input.caseinPercent / REFERENCE_CASEIN_PERCENT) ** CASEIN_EXPONENT;
}

/** Firmness on the way to `fullPa` (kernel: no checks, allocates nothing). */
export function firmnessTowards(
  input: Pick<FirmnessInput, 'minutesSinceFlocculation' | 'clottingTimeMin'> & { fullPa: number },
): number {
  if (!(input.minutesSinceFlocculation > 0)) return 0;
  return input.fullPa * Math.exp((-FIRMING_TIME_FACTOR * input.clottingTimeMin) / input.minutesSinceFlocculation);
}

/** Kernel of `gelFirmnessPa`: no checks. */
export function gelFirmnessKernel(input: FirmnessInput): number {
  return firmnessTowards({ ...input, fullPa: fullFirmnessPa(input) });
}

/**
 * How firm the gel is some minutes after the first flecks (shear storage modulus).
 *
 * G' = 150 Pa (casein/2.5)^2.3 exp(-2.5 t_c / (t - t_c)), t counted from rennet.
 *
 * @param input.minutesSinceFlocculation  [min], 0 to 240
 * @param input.clottingTimeMin  rennet to flecks [min], 2 to 90
 * @param input.caseinPercent  of the milk [%], 1.8 to 6.5
 * @param input.softening  factor for treatment of the milk [-], 0 to 2
 * @returns firmness [Pa], 0 before the flecks; normal cutting is 30 to 40
 * Valid: as `firmnessValidity`. Uncertainty: 30 % (our own statement; no test was possible).
 * @throws InputError naming every field that does not fit
 * @source form: Scott Blair, as used by Guinee et al. (1997) Int. J. Dairy Technol. 50:99, abstract seen; numbers our own
 */
export function gelFirmnessPa(input: FirmnessInput): number {
  requireWithin(firmnessValidity, { ...input });
  return gelFirmnessKernel(input);
}

/**
 * Minutes after the first flecks until the gel is this firm (kernel, unchecked): the inverse of `gelFirmnessKernel`.
 *
 * @param input.firmnessPa  wanted [Pa]; other fields as `FirmnessInput`
 * @returns minutes since flocculation [min]; Infinity where this milk never gets so firm
 * @source as `gelFirmnessPa`
 */
export function minutesToFirmness(
  input: Omit<FirmnessInput, 'minutesSinceFlocculation'> & { firmnessPa: number },
): number {
  return minutesTowards({ ...input, fullPa: fullFirmnessPa(input) });
}

/** The same on the way to `fullPa` (kernel: no checks): the inverse of `firmnessTowards`. */
export function minutesTowards(
  input: Pick<FirmnessInput, 'clottingTimeMin'> & { fullPa: number; firmnessPa: number },
): number {
  return input.firmnessPa >= input.fullPa
    ? Number.POSITIVE_INFINITY
    : (FIRMING_TIME_FACTOR * input.clottingTimeMin) / Math.log(input.fullPa / input.firmnessPa);
}
