/** Calendar days as whole numbers: no hours, no zone, so that a fortnight is fourteen in every month and every summer time. */

const DAY_MS = 86_400_000;
const DAYS_OF_400_YEARS = 146_097; // 400 years of the Gregorian calendar, leap days and all
const DAYS_BEFORE_1970 = 719_468; // from 1 March of the year 0 to 1 January 1970

/**
 * Days since 1 January 1970 of `2026-12-24`; NaN for what is no day.
 * @source counting from 1 March, so that the leap day comes last: our own arithmetic, tested against the platform's dates
 */
export function dayNumber(day: string): number {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day);
  if (match === null) return Number.NaN;
  const [year, month, date] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const shifted = month > 2 ? year : year - 1;
  const era = Math.floor(shifted / 400);
  const ofEra = shifted - era * 400;
  const ofYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + date - 1;
  const ofEraDays = ofEra * 365 + Math.floor(ofEra / 4) - Math.floor(ofEra / 100) + ofYear;
  const number = era * DAYS_OF_400_YEARS + ofEraDays - DAYS_BEFORE_1970;
  return dayText(number) === day ? number : Number.NaN;
}

/** `2026-12-24` of a day's number. */
export function dayText(day: number): string {
  const shifted = Math.floor(day) + DAYS_BEFORE_1970;
  const era = Math.floor(shifted / DAYS_OF_400_YEARS);
  const ofEraDays = shifted - era * DAYS_OF_400_YEARS;
  const ofEra = Math.floor((ofEraDays - Math.floor(ofEraDays / 1460) + Math.floor(ofEraDays / 36_524) - Math.floor(ofEraDays / 146_096)) / 365); // prettier-ignore
  const ofYear = ofEraDays - (365 * ofEra + Math.floor(ofEra / 4) - Math.floor(ofEra / 100));
  const fromMarch = Math.floor((5 * ofYear + 2) / 153);
  const date = ofYear - Math.floor((153 * fromMarch + 2) / 5) + 1;
  const month = fromMarch < 10 ? fromMarch + 3 : fromMarch - 9;
  const year = ofEra + era * 400 + (month <= 2 ? 1 : 0);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(date)}`;
}

/**
 * The day that an instant lies in, where a clock is so many minutes ahead of UTC.
 * @param input.at milliseconds UTC
 */
export const dayOf = (input: { readonly at: number; readonly utcOffsetMin: number }): number =>
  Math.floor((input.at + input.utcOffsetMin * 60_000) / DAY_MS);
