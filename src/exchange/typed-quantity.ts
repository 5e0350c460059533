/** Numbers as people type them: a decimal comma or point, with or without a unit behind. Nothing is guessed. */
import { convert, UNITS, type Dimension, type UnitName } from '../numbers/units.ts';
import type { Problem } from '../numbers/validity.ts';

/** What may stand behind a number, in lower case, and the unit it means. */
const TYPED_UNITS: Readonly<Record<string, UnitName>> = {
  '°c': 'C', c: 'C', '°f': 'F', f: 'F',
  l: 'L', litre: 'L', litres: 'L', liter: 'L', liters: 'L', ml: 'mL',
  gal: 'us-gallon', gallon: 'us-gallon', gallons: 'us-gallon', qt: 'us-quart', quart: 'us-quart', quarts: 'us-quart',
  kg: 'kg', g: 'g', mg: 'mg', lb: 'lb', oz: 'oz',
  mm: 'mm', cm: 'cm', in: 'in',
}; // prettier-ignore

/** The unit that somebody means by what they write; undefined where none is known by it. */
export const unitWritten = (text: string): UnitName | undefined => {
  const name = text.trim().toLowerCase();
  return Object.hasOwn(TYPED_UNITS, name) ? TYPED_UNITS[name] : undefined;
};

export type TypedQuantity = { readonly value: number } | { readonly problem: Problem };

/**
 * Reads one typed quantity.
 * @param input.text as typed
 * @param input.field path of the fact, for the problem
 * @param input.unit what a bare number means; left out for plain numbers (pH, percent, counts)
 * @param input.into the canonical unit that the value comes back in
 * @returns the value, or what is wrong in the house form; ranges are not judged here
 */
export function readTyped(input: {
  readonly text: string;
  readonly field: string;
  readonly unit?: UnitName;
  readonly into?: UnitName;
}): TypedQuantity {
  const { text, field, unit, into } = input;
  const match = /^([-\u2212+]?[0-9]*(?:[.,][0-9]+)?)\s*([^0-9\s].*)?$/.exec(text.trim());
  const digits = match?.[1] ?? '';
  const value = digits === '' ? Number.NaN : Number(digits.replace(',', '.').replace('\u2212', '-'));
  if (match === null || !Number.isFinite(value)) {
    return { problem: { code: 'not-a-number', field, value: text, expected: 'a number', remedy: 'Type figures, such as 10 or 10.5.' } }; // prettier-ignore
  }
  const behind = match[2]?.trim().toLowerCase();
  if (unit === undefined || into === undefined) {
    return behind === undefined || behind === '%'
      ? { value }
      : { problem: unknownUnit(field, text, 'a number without a unit') };
  }
  if (behind === undefined) return { value: convert({ value, from: unit, to: into }) };
  const named = TYPED_UNITS[behind];
  const dimension: Dimension = UNITS[into].dimension;
  if (named === undefined || UNITS[named].dimension !== dimension) {
    return { problem: unknownUnit(field, text, `a number in ${UNITS[unit].symbol}`) };
  }
  return { value: convert({ value, from: named, to: into }) };
}

const unknownUnit = (field: string, value: string, expected: string): Problem => ({
  code: 'wrong-type',
  field,
  value,
  expected,
  remedy: 'Leave the unit out, or give one of the same kind.',
});

/** A number as a person would type it: four figures, no zeros behind. */
export const shortText = (value: number): string => String(Number(value.toPrecision(4)));
