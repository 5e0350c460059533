/**
 * Unit conversions, the one place they are done. Inside the house every quantity is in its canonical unit
 * (°C, L, kg, mm, kPa, min); other units exist only at the doors and in the calculators.
 *
 * Every unit is a line `canonical = factor * (value - zero)`: ratio units have their zero at 0, °F at 32.
 */

export type Dimension =
  'temperature' | 'temperature-difference' | 'volume' | 'mass' | 'length' | 'pressure' | 'duration';

export interface Unit {
  readonly dimension: Dimension;
  /** Canonical units in one of these. */
  readonly factor: number;
  /** Where the canonical zero stands on this scale; 0 but for °F and K. */
  readonly zero: number;
  /** As it is written beside a number. */
  readonly symbol: string;
}

const LITRE_PER_US_GALLON = 3.785411784; // 231 cubic inches, exact by definition (NIST Handbook 44 (2024), Appendix C); from memory
const LITRE_PER_IMPERIAL_GALLON = 4.54609; // exact by definition (UK Weights and Measures Act 1985, Schedule 1); from memory
const KG_PER_POUND = 0.45359237; // exact, international yard and pound agreement 1959; from memory
const MM_PER_INCH = 25.4; // exact, international yard and pound agreement 1959; from memory
const KPA_PER_PSI = 6.894757293168361; // pound of force on a square inch, g = 9.80665 m/s2 exact (CGPM 1901); from memory

const ratio = (dimension: Dimension, factor: number, symbol: string): Unit => ({
  dimension,
  factor,
  zero: 0,
  symbol,
});

/** Every unit the house knows, by the name used in input and output. */
export const UNITS = {
  C: ratio('temperature', 1, '°C'),
  F: { dimension: 'temperature', factor: 5 / 9, zero: 32, symbol: '°F' },
  K: { dimension: 'temperature', factor: 1, zero: 273.15, symbol: 'K' },
  'rise-C': ratio('temperature-difference', 1, '°C'),
  'rise-F': ratio('temperature-difference', 5 / 9, '°F'),
  L: ratio('volume', 1, 'L'),
  mL: ratio('volume', 0.001, 'mL'),
  'us-gallon': ratio('volume', LITRE_PER_US_GALLON, 'US gal'),
  'us-quart': ratio('volume', LITRE_PER_US_GALLON / 4, 'US qt'),
  'us-pint': ratio('volume', LITRE_PER_US_GALLON / 8, 'US pt'),
  'us-cup': ratio('volume', LITRE_PER_US_GALLON / 16, 'US cup'),
  'us-fluid-ounce': ratio('volume', LITRE_PER_US_GALLON / 128, 'US fl oz'),
  'us-tablespoon': ratio('volume', LITRE_PER_US_GALLON / 256, 'US tbsp'),
  'us-teaspoon': ratio('volume', LITRE_PER_US_GALLON / 768, 'US tsp'),
  'metric-cup': ratio('volume', 0.25, 'cup'), // 250 mL, common practice (no source)
  'metric-tablespoon': ratio('volume', 0.015, 'tbsp'), // 15 mL, common practice (no source)
  'metric-teaspoon': ratio('volume', 0.005, 'tsp'), // 5 mL, common practice (no source)
  'australian-tablespoon': ratio('volume', 0.02, 'tbsp'), // 20 mL, common practice (no source)
  'imperial-gallon': ratio('volume', LITRE_PER_IMPERIAL_GALLON, 'imp gal'),
  'imperial-quart': ratio('volume', LITRE_PER_IMPERIAL_GALLON / 4, 'imp qt'),
  'imperial-pint': ratio('volume', LITRE_PER_IMPERIAL_GALLON / 8, 'imp pt'),
  'imperial-cup': ratio('volume', LITRE_PER_IMPERIAL_GALLON / 16, 'imp cup'), // 10 imperial fl oz
  'imperial-fluid-ounce': ratio('volume', LITRE_PER_IMPERIAL_GALLON / 160, 'imp fl oz'),
  kg: ratio('mass', 1, 'kg'),
  g: ratio('mass', 0.001, 'g'),
  mg: ratio('mass', 0.000001, 'mg'),
  lb: ratio('mass', KG_PER_POUND, 'lb'),
  oz: ratio('mass', KG_PER_POUND / 16, 'oz'),
  mm: ratio('length', 1, 'mm'),
  cm: ratio('length', 10, 'cm'),
  m: ratio('length', 1000, 'm'),
  in: ratio('length', MM_PER_INCH, 'in'),
  kPa: ratio('pressure', 1, 'kPa'),
  psi: ratio('pressure', KPA_PER_PSI, 'psi'),
  min: ratio('duration', 1, 'min'),
  s: ratio('duration', 1 / 60, 's'),
  h: ratio('duration', 60, 'h'),
  d: ratio('duration', 1440, 'd'),
} as const satisfies Record<string, Unit>;

export type UnitName = keyof typeof UNITS;

export const isUnitName = (name: string): name is UnitName => Object.hasOwn(UNITS, name);

export const unitNames: readonly UnitName[] = Object.keys(UNITS).filter(isUnitName);

/** True where both units measure the same kind of thing. */
export function sameDimension(units: { readonly from: UnitName; readonly to: UnitName }): boolean {
  return UNITS[units.from].dimension === UNITS[units.to].dimension;
}

/**
 * The same quantity in another unit.
 * @param input.value the number, in `from`
 * @param input.from the unit it is given in
 * @param input.to the unit wanted, of the same dimension
 * @returns the number in `to`, unrounded
 * @throws RangeError when the two units measure different things (a bug of the caller; parse with `sameDimension`)
 */
export function convert(input: { readonly value: number; readonly from: UnitName; readonly to: UnitName }): number {
  const from: Unit = UNITS[input.from];
  const to: Unit = UNITS[input.to];
  if (from.dimension !== to.dimension) throw new RangeError(`${input.from} cannot become ${input.to}`);
  if (input.from === input.to) return input.value;
  return ((input.value - from.zero) * from.factor) / to.factor + to.zero;
}

export const celsiusFromFahrenheit = (temperatureF: number): number =>
  convert({ value: temperatureF, from: 'F', to: 'C' });

export const fahrenheitFromCelsius = (temperatureC: number): number =>
  convert({ value: temperatureC, from: 'C', to: 'F' });
