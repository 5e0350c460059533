import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  celsiusFromFahrenheit,
  convert,
  fahrenheitFromCelsius,
  isUnitName,
  sameDimension,
  UNITS,
  unitNames,
} from './units.ts';

const pairs = unitNames.flatMap((from) =>
  unitNames.filter((to) => sameDimension({ from, to })).map((to) => ({ from, to })),
);

describe('units', () => {
  it('come back unchanged from every unit of the same kind, ratio and offset alike', () => {
    expect(pairs.length).toBeGreaterThan(200);
    fc.assert(
      fc.property(
        fc.constantFrom(...pairs),
        fc.double({ min: -500, max: 5000, noNaN: true }),
        ({ from, to }, value) => {
          const back = convert({ value: convert({ value, from, to }), from: to, to: from });
          // An offset of some 273 costs a few of the last digits of a very small number.
          expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-12 * Math.max(300, Math.abs(value)));
        },
      ),
      { seed: 20261125, numRuns: 2000 },
    );
  });

  it('keep the order of two quantities', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...pairs),
        fc.integer({ min: -1000, max: 1000 }),
        fc.integer({ min: 1, max: 1000 }),
        ({ from, to }, value, more) => {
          expect(convert({ value: value + more, from, to })).toBeGreaterThan(convert({ value, from, to }));
        },
      ),
      { seed: 20261125, numRuns: 500 },
    );
  });

  it('know the fixed points of the two temperature scales', () => {
    expect(fahrenheitFromCelsius(0)).toBeCloseTo(32, 12);
    expect(fahrenheitFromCelsius(100)).toBeCloseTo(212, 12);
    expect(celsiusFromFahrenheit(-40)).toBeCloseTo(-40, 12);
    expect(celsiusFromFahrenheit(145)).toBeCloseTo(62.7778, 4);
    expect(convert({ value: 0, from: 'C', to: 'K' })).toBeCloseTo(273.15, 12);
  });

  it('turn a rise of ten degrees Celsius into eighteen Fahrenheit, not fifty', () => {
    expect(convert({ value: 10, from: 'rise-C', to: 'rise-F' })).toBeCloseTo(18, 12);
  });

  it.each([
    [1, 'us-gallon', 'mL', 3785.411784],
    [1, 'us-quart', 'mL', 946.352946],
    [1, 'us-cup', 'mL', 236.5882365],
    [1, 'us-fluid-ounce', 'mL', 29.5735295625],
    [1, 'us-teaspoon', 'mL', 4.92892159375],
    [1, 'us-tablespoon', 'mL', 14.78676478125],
    [1, 'imperial-gallon', 'mL', 4546.09],
    [1, 'imperial-pint', 'mL', 568.26125],
    [1, 'imperial-fluid-ounce', 'mL', 28.4130625],
    [1, 'lb', 'g', 453.59237],
    [1, 'oz', 'g', 28.349523125],
    [1, 'in', 'mm', 25.4],
    [14, 'psi', 'kPa', 96.5266],
  ] as const)('%d %s is so many %s', (value, from, to, expected) => {
    expect(convert({ value, from, to })).toBeCloseTo(expected, 4);
  });

  it('refuse to make kilograms out of litres', () => {
    expect(() => convert({ value: 1, from: 'L', to: 'kg' })).toThrow(/L cannot become kg/);
    expect(isUnitName('L')).toBe(true);
    expect(isUnitName('toString')).toBe(false);
    expect(UNITS.F.zero).toBe(32);
  });
});
