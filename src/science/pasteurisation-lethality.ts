/**
 * How much a whole heating adds up to, as minutes at 63 °C: information beside the law's hold, never a verdict.
 * Left out: phosphatase (use the kit), toxins and spores, which no heating of this kind removes.
 */
import type { ProbeCurve } from './pasteurisation-hold.ts';

/** Temperature difference that shortens a hold tenfold [K]: the one that makes 63 °C 30 min and 72 °C 15 s equal. */
export const LEGAL_PAIRS_Z_K = (72 - 63) / Math.log10((30 * 60) / 15); // 4.3286: 21 CFR 1240.61(b), derived
export const LETHALITY_REFERENCE_C = 63;
const SECONDS_AT_72_PER_MINUTE_AT_63 = 15 / 30; // exact, by that z
const SAME_K = 1e-9; // below this a segment counts as flat: rounding of floating point only

export interface HeatTarget {
  /** Time for one tenfold reduction [s] at `atC`. */
  readonly secondsPerTenfold: number;
  readonly atC: number;
  readonly zK: number;
}

/** What heat does to two germs that the law's pairs were set for or are judged by. */
export const HEAT_TARGETS = {
  // abstract of IAFP 2016 paper 11323, seen: 1.99 ± 0.21 s in cow milk; z from the legal pairs
  coxiellaBurnetii: { secondsPerTenfold: 1.99, atC: 71.7, zK: LEGAL_PAIRS_Z_K },
  // Bradshaw et al. 1985, J. Food Prot. 48:743, abstract seen; good to a factor of two over 52 to 74 °C
  listeriaMonocytogenes: { secondsPerTenfold: 0.9, atC: 71.7, zK: 6.3 },
} as const satisfies Record<string, HeatTarget>;

/**
 * Lethality of one straight piece of a curve (kernel): integral of 10^((T - Tref)/z) dt.
 * @param input.minutes its length [min]; `fromC`, `toC` its ends [°C]; `referenceC` and `zK` of the sum
 */
export function segmentLethalityKernel(input: {
  readonly minutes: number;
  readonly fromC: number;
  readonly toC: number;
  readonly referenceC: number;
  readonly zK: number;
}): number {
  const { minutes, fromC, toC, referenceC, zK } = input;
  const at = (temperatureC: number): number => 10 ** ((temperatureC - referenceC) / zK);
  const riseK = toC - fromC;
  if (Math.abs(riseK) < SAME_K) return minutes * at(fromC);
  return ((minutes * zK) / (Math.LN10 * riseK)) * (at(toC) - at(fromC));
}

/**
 * Minutes at the reference temperature that a logged heating is worth.
 *
 * L = integral of 10^((T - Tref)/z) dt. Best: straight lines between readings. Conservative: each piece at its colder end.
 *
 * @param input.curves  one a probe, from `coldestPlausible`; the least of them counts
 * @param input.isConservative  every piece at its colder end
 * @param input.referenceC  [°C], 63 where left out
 * @param input.zK  [K], that of the legal pairs where left out
 * @returns minutes at the reference temperature [min]
 * Valid: any curve; a sum over much time below 57 °C says nothing. Uncertainty: that of z: a factor of two some 6 K away
 * from the reference.
 * @source the general method; z from the pairs of 21 CFR 1240.61(b)
 */
export function lethalityMinutes(input: {
  readonly curves: readonly ProbeCurve[];
  readonly isConservative?: boolean;
  readonly referenceC?: number;
  readonly zK?: number;
}): number {
  const { curves, isConservative = false, referenceC = LETHALITY_REFERENCE_C, zK = LEGAL_PAIRS_Z_K } = input;
  const sums = curves.map((curve) => {
    let sum = 0;
    curve.forEach((next, i) => {
      const before = curve[i - 1];
      if (before === undefined) return;
      const coldC = Math.min(before.temperatureC, next.temperatureC);
      sum += segmentLethalityKernel({
        minutes: next.minute - before.minute,
        fromC: isConservative ? coldC : before.temperatureC,
        toC: isConservative ? coldC : next.temperatureC,
        referenceC,
        zK,
      });
    });
    return sum;
  });
  return sums.length === 0 ? 0 : Math.min(...sums);
}

/** The same sum as seconds at 72 °C: half as many as it is minutes at 63 °C. */
export const secondsAt72C = (minutesAt63C: number): number => SECONDS_AT_72_PER_MINUTE_AT_63 * minutesAt63C;

/**
 * Time for one tenfold reduction at a temperature: D = D_ref 10^((T_ref - T)/z).
 * @param input.target  from `HEAT_TARGETS`
 * @param input.temperatureC  [°C], about 60 to 75
 * @returns time [s]
 * Valid: 60 to 75 °C. Uncertainty: a factor of two.
 * @source as `HEAT_TARGETS`
 */
export const secondsPerTenfold = (input: { readonly target: HeatTarget; readonly temperatureC: number }): number =>
  input.target.secondsPerTenfold * 10 ** ((input.target.atC - input.temperatureC) / input.target.zK);

/**
 * Tenfold reductions that a curve is worth against one germ.
 * @param input.curves  one a probe, from `coldestPlausible`
 * @param input.target  from `HEAT_TARGETS`
 * @param input.isConservative  every piece at its colder end
 * @returns decimal steps [log10]; show one figure at most, and "more than 8" above 8
 * Valid: about 60 to 75 °C. Uncertainty: a factor of two; no verdict.
 * @source as `HEAT_TARGETS`
 */
export function tenfoldReductions(input: {
  readonly curves: readonly ProbeCurve[];
  readonly target: HeatTarget;
  readonly isConservative?: boolean;
}): number {
  const { curves, target, isConservative = false } = input;
  const minutes = lethalityMinutes({ curves, isConservative, referenceC: target.atC, zK: target.zK });
  return (60 * minutes) / target.secondsPerTenfold;
}
