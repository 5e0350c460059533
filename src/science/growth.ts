/** How a microbe's growth depends on one condition at a time: the cardinal form shared by its models. */

/** Least, best and highest value at which it grows. */
export interface Cardinals {
  readonly min: number;
  readonly best: number;
  readonly max: number;
}

/**
 * Share of the best growth rate at one value of temperature or pH, 0 outside the limits and 1 at the best.
 *
 * CMn(x) = (x - max)(x - min)^n / {(best - min)^(n-1) [(best - min)(x - best) - (best - max)((n-1) best + min - n x)]}
 *
 * @param input.at  temperature [°C] or pH [-]
 * @param input.cardinals  its three limits, same unit
 * @param input.order  n: 2 for temperature, 1 for pH
 * @returns share [-], 0 to 1
 * Valid: any value. Uncertainty: that of the limits.
 * @source Rosso et al. (1995) Appl. Environ. Microbiol. 61:610 (from memory); form as in Augustin et al. (2005), seen in a
 *   model library
 */
export function cardinalShare(input: {
  readonly at: number;
  readonly cardinals: Cardinals;
  readonly order: 1 | 2;
}): number {
  const { at: x, order: n } = input;
  const { min, best, max } = input.cardinals;
  if (!(x > min && x < max)) return 0;
  // Multiplied out: a power costs more than all the rest, and this is asked at every step of every member.
  const above = (x - max) * (x - min) * (n === 2 ? x - min : 1);
  const below =
    (n === 2 ? best - min : 1) * ((best - min) * (x - best) - (best - max) * ((n - 1) * best + min - n * x));
  return above / below;
}

/** Decimal steps in a day at a natural-log rate [1/h]: mu 24 / ln 10. */
export const log10PerDay = (ratePerH: number): number => (24 * ratePerH) / Math.LN10;

const CONVERSION_MIN_C = -1.18; // inferred from US FDA/FSIS 2003 risk assessment, appendix 8, and printed in the EU assessment's script; seen

/**
 * A growth rate of Listeria carried from one temperature to another.
 *
 * r(T2) = r(T1) ((T2 + 1.18) / (T1 + 1.18))^2
 *
 * @param input.rate  at `fromC`, any unit of rate
 * @param input.fromC  [°C], above -1.18, up to about 16
 * @param input.toC  [°C], likewise
 * @returns rate at `toC`, same unit
 * Valid: 0 to 16 °C. Uncertainty: reproduces 12 of 16 printed rows to 0.0005 and two to 2 %, misses two by 3 to 5 %.
 * @source US FDA/FSIS (2003) Listeria risk assessment, appendix 8 (table seen; the -1.18 is inferred from it)
 */
export const rateAtTemperature = (input: {
  readonly rate: number;
  readonly fromC: number;
  readonly toC: number;
}): number => input.rate * ((input.toC - CONVERSION_MIN_C) / (input.fromC - CONVERSION_MIN_C)) ** 2;
