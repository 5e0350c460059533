import { QUANTITIES, type Quantity, type UnitSystem } from '../../../make/quantity.ts';
import { UNITS } from '../../../numbers/units.ts';
import { useReader } from '../device/reader.tsx';
import type { PadQuantity } from './pad-model.ts';

/** The units that each instrument of this device shows, where they are not those of its reader. */
export interface PadUnits {
  readonly unitsOf: (quantity: PadQuantity) => UnitSystem;
  /** Turns to the other units, keeps that on the device, and says which they are now. */
  readonly switchUnits: (quantity: PadQuantity) => UnitSystem;
}

const other = (units: UnitSystem): 'metric' | 'us' => (units === 'metric' ? 'us' : 'metric');

/** A thermometer in Fahrenheit beside a scale in kilograms: units by quantity, first those of the reader. */
export function usePadUnits(): PadUnits {
  const { write, settings, change } = useReader();
  const unitsOf = (quantity: PadQuantity): UnitSystem => settings.padUnits[quantity] ?? write.units;
  return {
    unitsOf,
    switchUnits(quantity) {
      const units = other(unitsOf(quantity));
      change({ padUnits: { ...settings.padUnits, [quantity]: units } });
      return units;
    },
  };
}

/** The symbol of the unit that a switch would turn to; null where the quantity has only one. */
export function otherUnit(input: { readonly quantity: PadQuantity; readonly units: UnitSystem }): string | null {
  const { shownIn }: Quantity = QUANTITIES[input.quantity];
  return shownIn === undefined ? null : UNITS[shownIn[other(input.units)]].symbol;
}
