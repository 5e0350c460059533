/**
 * How wrong the acid model is, as measured on published makes: the error term of every likelihood and forecast, and the
 * narrowest band that may be shown. Parameter spread alone covered only 53 to 71 % of later readings; with these, 86 %.
 */
import type { AcidPhase } from './acidification.ts';

/** Model error of pH: in milk and whey, in drained curd, and in drained curd just after it was read. Our own fit. */
export const MODEL_ERROR_PH = { milk: 0.04, drained: 0.2, drainedAfterReading: 0.05 } as const;
/** After a reading of the curd the error grows back over this long. Our own recommendation, not tested. */
export const MODEL_ERROR_REGROWTH_MIN = 180;
/** Error of a reading: in a liquid, and of curd on a flat probe. Our own estimate. */
export const PROBE_ERROR_PH = { liquid: 0.03, curd: 0.05 } as const;

/**
 * Standard deviation of the model's pH error.
 *
 * @param at.phase  milk, curd in whey, or drained
 * @param at.minutesSinceCurdReading  since the drained curd was last read [min]; left out where it never was
 * @returns standard deviation [pH]
 * Uncertainty: tuned on 22 later readings of published makes.
 * @source our own fit
 */
export function modelErrorPH(at: { readonly phase: AcidPhase; readonly minutesSinceCurdReading?: number }): number {
  if (at.phase !== 'drained') return MODEL_ERROR_PH.milk;
  if (at.minutesSinceCurdReading === undefined) return MODEL_ERROR_PH.drained;
  const share = Math.min(at.minutesSinceCurdReading / MODEL_ERROR_REGROWTH_MIN, 1);
  return MODEL_ERROR_PH.drainedAfterReading + share * (MODEL_ERROR_PH.drained - MODEL_ERROR_PH.drainedAfterReading);
}

const BAND_FLOOR_FRACTION = { milk: 0.1, drained: 0.15 } as const; // of the remaining time, our own recommendation
const BAND_FLOOR_MIN = 6; // our own recommendation

/**
 * Least distance from the median to either end of a shown band of times.
 *
 * @param at.remainingMin  from now to the median [min]
 * @param at.phase  what the curd will be then
 * @returns half width [min], at least 6
 * Uncertainty: a rule, not a measurement.
 * @source our own recommendation from the errors of published makes
 */
export function bandFloorMin(at: { readonly remainingMin: number; readonly phase: AcidPhase }): number {
  const fraction = at.phase === 'drained' ? BAND_FLOOR_FRACTION.drained : BAND_FLOOR_FRACTION.milk;
  return Math.max(BAND_FLOOR_MIN, fraction * Math.max(at.remainingMin, 0));
}
