const ROUND_MS = 5 * 60_000;

/** Milliseconds UTC of a local day (`2026-03-04`) and time (`17:00`); null while either is half typed. */
export function wallInstant(input: { readonly day: string; readonly time: string }): number | null {
  const day = /^(\d{4})-(\d{2})-(\d{2})$/.exec(input.day);
  const time = /^(\d{1,2}):(\d{2})$/.exec(input.time);
  if (day === null || time === null) return null;
  const [year, month, date] = [Number(day[1]), Number(day[2]), Number(day[3])];
  const [hour, minute] = [Number(time[1]), Number(time[2])];
  if (hour > 23 || minute > 59) return null;
  return new Date(year, month - 1, date, hour, minute).getTime();
}

/** The local day of an instant, as `2026-03-04`. */
export function localDay(atMs: number): string {
  const at = new Date(atMs);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

/** The local time of day of an instant, as `17:00`. */
export function localTime(atMs: number): string {
  const at = new Date(atMs);
  return `${String(at.getHours()).padStart(2, '0')}:${String(at.getMinutes()).padStart(2, '0')}`;
}

/** An instant on the nearest (or earlier, or later) five minutes: hours ahead, a single minute means nothing. */
export const toFiveMinutes = (atMs: number, rounding: (value: number) => number): number =>
  rounding(atMs / ROUND_MS) * ROUND_MS;
