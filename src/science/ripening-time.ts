/**
 * How far a cheese is as if it had ripened at one temperature: warm days count for more than cold ones. An assumption with a
 * band, never a date: chronological age alone is a poor guide, and what ripens is several things at several speeds.
 */
import { InputError, requireWithin, type Validity } from '../numbers/validity.ts';

export const RIPENING_Q10 = 2; // an assumption: no numeric table was seen; speed rises with temperature from 8 to 16 °C in Cheddar (1996, abstract seen)
export const RIPENING_Q10_BAND = { low: 1.7, high: 3 } as const; // our own choice around the assumption

export const ripeningValidity: Validity = {
  temperatureC: {
    low: 1,
    high: 25,
    unit: '°C',
    source: 'cold store to warm room; kinetics were measured at 12 to 25 °C',
  },
  referenceC: { low: 4, high: 16, unit: '°C', source: 'usual ripening temperatures, university page, seen' },
};

export interface RipeningStay {
  readonly days: number;
  readonly temperatureC: number;
}

/** Kernel of `equivalentRipeningDays`: sum of days times Q^((T - Tref)/10). */
export const equivalentRipeningKernel = (input: {
  readonly stays: readonly RipeningStay[];
  readonly referenceC: number;
  readonly q10: number;
}): number =>
  input.stays.reduce(
    (sum, { days, temperatureC }) => sum + days * input.q10 ** ((temperatureC - input.referenceC) / 10),
    0,
  );

/**
 * Days at one temperature that a history of stays is worth.
 *
 * t_eq = sum of dt Q^((T - Tref)/10), Q = 2, assumed; band from 1.7 to 3
 *
 * @param input.stays  days [d] at each temperature [°C], 1 to 25
 * @param input.referenceC  temperature to compare with [°C], 4 to 16
 * @returns days at the reference, with the band of the assumption
 * Valid: as `ripeningValidity`. Uncertainty: the band; Q itself is an assumption, unconfirmed.
 * @throws InputError outside the range, or for a negative number of days
 * @source form: common practice (no source); Cheddar at 8, 12 and 16 °C (1996) and kinetics of Bouzas et al. (1993), both
 *   abstracts seen, without numbers
 */
export function equivalentRipeningDays(input: {
  readonly stays: readonly RipeningStay[];
  readonly referenceC: number;
}): { readonly days: number; readonly low: number; readonly high: number } {
  const { stays, referenceC } = input;
  requireWithin(ripeningValidity, { referenceC });
  for (const { days, temperatureC } of stays) {
    requireWithin(ripeningValidity, { temperatureC });
    if (!(days >= 0)) {
      throw new InputError([
        { code: 'impossible', field: 'days', value: days, unit: 'd', expected: '0 or more', remedy: 'Give days.' },
      ]);
    }
  }
  const at = (q10: number): number => equivalentRipeningKernel({ stays, referenceC, q10 });
  const ends = [at(RIPENING_Q10_BAND.low), at(RIPENING_Q10_BAND.high)] as const;
  return { days: at(RIPENING_Q10), low: Math.min(...ends), high: Math.max(...ends) };
}
