import { convert } from './units.ts';

const GALLONS_FROM_L = 3.75; // a gallon, with room for rounding: our own choice
const QUARTS_FROM_L = 0.4; // from a pint on: our own choice
const NEAR_QUARTER = 0.005; // of a gallon or quart: our own choice

/** A volume as an American kitchen says it. */
export interface UsVolume {
  readonly unit: 'us-gallon' | 'us-quart';
  readonly value: number;
  /** One decimal, and two for an odd quarter: 2 gal are "2.0", five quarts "1.25". */
  readonly digits: 1 | 2;
}

/**
 * Gallons from one on, quarts from a pint on, so that two gallons never become eight quarts.
 * @param volumeL [L]
 * @returns null below a pint, where ounces or millilitres say more
 */
export function usVolume(volumeL: number): UsVolume | null {
  const size = Math.abs(volumeL);
  if (size < QUARTS_FROM_L) return null;
  const unit = size >= GALLONS_FROM_L ? 'us-gallon' : 'us-quart';
  const value = convert({ value: volumeL, from: 'L', to: unit });
  const isOddQuarter = Math.abs(2 * value - Math.round(2 * value)) > 2 * NEAR_QUARTER && Math.abs(value - Math.round(4 * value) / 4) <= NEAR_QUARTER; // prettier-ignore
  return { unit, value, digits: isOddQuarter ? 2 : 1 };
}
