import { displayValue, QUANTITIES, type UnitSystem } from '../../../make/quantity.ts';
import type { PadQuantity } from './pad-model.ts';

/** No quantity of the vat needs more digits than this. */
export const MOST_KEYS = 6;

/** Keys as they stand in the field: the point fixed, places not yet typed left open, nothing dropped. */
export function keysShown(input: {
  readonly keys: string;
  readonly quantity: PadQuantity;
  readonly units: UnitSystem;
}): string {
  const { decimals } = displayValue({
    quantity: input.quantity,
    value: QUANTITIES[input.quantity].plausible.low,
    units: input.units,
  });
  const padded = input.keys.padStart(decimals + 1, '_');
  if (decimals === 0) return padded;
  return `${padded.slice(0, -decimals)}.${padded.slice(-decimals)}`;
}
