/**
 * The earliest day that a code lets a raw-milk cheese be eaten or sold, and what that day does not say. A date in a law, not a
 * verdict on a cheese.
 */
import { InputError } from '../numbers/validity.ts';

export const RAW_MILK_DAYS = 60; // 21 CFR 133.182(a) and 133.187(a), seen; the same for cheese for manufacturing, 7 CFR 58.439, seen
export const RAW_MILK_LEAST_C = 1.7; // 35 °F: the same sections, seen
export const RAW_MILK_SOURCE =
  '21 CFR 133.182 and 133.187, 7 CFR 58.439 (United States, seen): 60 days at 35 °F (1.7 °C) or warmer';

/** Days that the cheese lay somewhere; null where nobody knows how cold it was. */
export interface CuringStay {
  readonly days: number;
  readonly temperatureC: number | null;
}

export interface RawMilkAge {
  /** Days that count: those not colder than the code allows; unknown ones count, and are told. */
  readonly counted: number;
  readonly tooCold: number;
  readonly unknown: number;
  /** Days still to go; 0 where there are enough. */
  readonly left: number;
  readonly needed: number;
  readonly source: string;
}

/**
 * How far a raw-milk cheese is on its way to the 60 days of the US code.
 *
 * Days below 1.7 °C do not count. Listeria grows in surface-ripened cheese meanwhile, and E. coli O157 has been shown to live
 * through 60 days: the day is a line in a code.
 *
 * @param input.stays  days [d] and temperature [°C] of each, from making on
 * @returns days counted, too cold, unknown and still to go
 * Valid: cheese under that code. Uncertainty: none in the count; what the days do for a cheese is another matter.
 * @throws InputError for a negative number of days
 * @source `RAW_MILK_SOURCE`
 */
export function rawMilkAge(input: { readonly stays: readonly CuringStay[] }): RawMilkAge {
  for (const { days } of input.stays) {
    if (!(days >= 0)) {
      throw new InputError([{ code: 'impossible', field: 'days', value: days, unit: 'd', expected: '0 or more', remedy: 'Give days.' }]); // prettier-ignore
    }
  }
  const sum = (of: (stay: CuringStay) => boolean): number => input.stays.filter(of).reduce((all, { days }) => all + days, 0); // prettier-ignore
  const tooCold = sum(({ temperatureC }) => temperatureC !== null && temperatureC < RAW_MILK_LEAST_C);
  const unknown = sum(({ temperatureC }) => temperatureC === null);
  const counted = sum(() => true) - tooCold;
  return { counted, tooCold, unknown, left: Math.max(0, RAW_MILK_DAYS - counted), needed: RAW_MILK_DAYS, source: RAW_MILK_SOURCE }; // prettier-ignore
}
