/** What must come out, as it is typed: a quantity and its two ends. */
import { readTyped } from '../../../exchange/typed-quantity.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { AimQuantity, Wanted } from '../../../forecast/question.ts';
import type { Make } from '../../../make/make.ts';
import { convert, type UnitName } from '../../../numbers/units.ts';
import { localDay, localTime, wallInstant } from '../plan/wall-clock.ts';

/** One line of the card; an empty end is left open. */
export interface AimRow {
  readonly quantity: AimQuantity;
  readonly low: string;
  readonly high: string;
}

/** In the order they are offered. */
export const OFFERED_AIMS: readonly AimQuantity[] = [
  'saltInMoisturePercent', 'saltPercent', 'moisturePercent', 'fatInDryMatterPercent', 'pH', 'cheeseKg', 'endMin',
]; // prettier-ignore

const MINUTE_MS = 60_000;
const ROUND_MIN = 15;

/** The unit printed inside an aim's fields. */
export function unitOf(quantity: AimQuantity, units: UnitSystem): string {
  if (quantity === 'pH') return 'pH';
  if (quantity === 'cheeseKg') return units === 'us' ? 'lb' : 'kg';
  return '%';
}

/** A first range: the make's own; for the weight and the end, what is foreseen and a little better. */
export function usualRow(input: {
  readonly quantity: AimQuantity;
  readonly make: Make;
  readonly forecast: Forecast;
  readonly endAt: number;
  readonly units: UnitSystem;
}): AimRow {
  const { quantity, make, forecast, endAt, units } = input;
  if (quantity === 'endMin') {
    const round = ROUND_MIN * MINUTE_MS;
    return { quantity, low: '', high: localTime(Math.floor(endAt / round) * round) };
  }
  if (quantity === 'cheeseKg') {
    const { p25, p75 } = forecast.outcome.cheeseKg;
    const shown = (massKg: number): string => (units === 'us' ? convert({ value: massKg, from: 'kg', to: 'lb' }) : massKg).toFixed(1); // prettier-ignore
    return { quantity, low: shown(p25), high: shown(p75) };
  }
  const aim = make.aims.find((one) => one.quantity === quantity);
  return { quantity, low: aim === undefined ? '' : String(aim.low), high: aim === undefined ? '' : String(aim.high) };
}

/** A row as an aim, or which of its ends cannot be read. */
export function readRow(input: {
  readonly row: AimRow;
  readonly zeroAt: number;
  readonly units: UnitSystem;
}): { readonly wanted: Wanted } | { readonly wrong: 'low' | 'high' | 'range' } {
  const { row } = input;
  const low = readEnd({ ...input, text: row.low, open: Number.NEGATIVE_INFINITY });
  const high = readEnd({ ...input, text: row.high, open: Number.POSITIVE_INFINITY });
  if (low === null) return { wrong: 'low' };
  if (high === null) return { wrong: 'high' };
  if (!(low < high) || (!Number.isFinite(low) && !Number.isFinite(high))) return { wrong: 'range' };
  return { wanted: { quantity: row.quantity, low, high } };
}

function readEnd(input: {
  readonly row: AimRow;
  readonly text: string;
  readonly open: number;
  readonly zeroAt: number;
  readonly units: UnitSystem;
}): number | null {
  const { row, text, open, zeroAt, units } = input;
  if (text.trim() === '') return open;
  if (row.quantity === 'endMin') return minutesAfter(text, zeroAt);
  const unit: UnitName | undefined = row.quantity === 'cheeseKg' ? (units === 'us' ? 'lb' : 'kg') : undefined;
  const read = readTyped({ text, field: 'aim', ...(unit === undefined ? {} : { unit, into: 'kg' }) });
  return 'value' in read ? read.value : null;
}

/** The next time, from the start on, that the clock shows it; null while half typed. */
function minutesAfter(time: string, zeroAt: number): number | null {
  const at = wallInstant({ day: localDay(zeroAt), time });
  if (at === null) return null;
  const minutes = (at - zeroAt) / MINUTE_MS;
  return minutes < 0 ? minutes + 24 * 60 : minutes;
}
