import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import {
  choiOkosConductivityWPerMK,
  choiOkosDensityKgPerM3,
  choiOkosSpecificHeatKJPerKgK,
  evaporationHeatKJPerKg,
  saturationPressurePa,
  thermalDiffusivityM2PerS,
  waterDensityKgPerM3,
  type FoodComposition,
} from './properties.ts';

const food = (
  waterPercent: number,
  proteinPercent: number,
  fatPercent: number,
  carbohydratePercent: number,
  ashPercent: number,
): FoodComposition => ({ waterPercent, proteinPercent, fatPercent, carbohydratePercent, ashPercent });

// Worked sums of the Choi-Okos equations at 20 °C: density, specific heat, parallel, geometric, diffusivity (parallel).
const WORKED: readonly [string, FoodComposition, number, number, number, number, number][] = [
  ['whole milk', food(87.69, 3.28, 3.66, 4.65, 0.72), 1023, 3.885, 0.564, 0.541, 1.42e-7],
  ['sweet whey', food(93.1, 0.85, 0.36, 5.1, 0.5), 1020, 4.001, 0.586, 0.577, 1.44e-7],
  ['curd of 50 % water', food(50, 21, 25, 2, 2), 1047, 3.073, 0.407, 0.347, 1.26e-7],
  ['mozzarella', food(54.1, 19.4, 21.6, 2.2, 2.6), 1051, 3.156, 0.427, 0.367, 1.29e-7],
  ['cheddar', food(36.75, 24.9, 33.1, 1.3, 3.9), 1060, 2.772, 0.352, 0.297, 1.2e-7],
];

describe('properties of milk, curd and cheese', () => {
  it.each(WORKED)(
    'follow the component equations for %s',
    (_name, composition, rho, cp, parallel, geometric, alpha) => {
      const at20 = { composition, temperatureC: 20 };
      expect(Math.abs(choiOkosDensityKgPerM3(at20) - rho)).toBeLessThan(1.1);
      expect(Math.abs(choiOkosSpecificHeatKJPerKgK(at20) - cp)).toBeLessThan(0.006);
      expect(Math.abs(choiOkosConductivityWPerMK({ ...at20, mixing: 'parallel' }) - parallel)).toBeLessThan(0.001);
      expect(Math.abs(choiOkosConductivityWPerMK({ ...at20, mixing: 'geometric' }) - geometric)).toBeLessThan(0.001);
      expect(Math.abs(thermalDiffusivityM2PerS({ ...at20, mixing: 'parallel' }) - alpha)).toBeLessThan(0.01e-7);
    },
  );

  it('let the mean conductivity lie between the two bounds at any composition', () => {
    fc.assert(
      fc.property(fc.double({ min: 20, max: 95, noNaN: true }), fc.double({ min: 0, max: 90, noNaN: true }), (w, t) => {
        const composition = food(w, (100 - w) * 0.4, (100 - w) * 0.5, (100 - w) * 0.06, (100 - w) * 0.04);
        const k = (mixing: 'parallel' | 'geometric' | 'mean') =>
          choiOkosConductivityWPerMK({ composition, temperatureC: t, mixing });
        expect(k('mean')).toBeLessThanOrEqual(k('parallel'));
        expect(k('mean')).toBeGreaterThanOrEqual(k('geometric'));
      }),
      { seed: 20261125, numRuns: 100 },
    );
  });

  it('make wetter cheese take more heat', () => {
    const cp = (w: number) =>
      choiOkosSpecificHeatKJPerKgK({ composition: food(w, 25, 75 - w, 0, 0), temperatureC: 40 });
    expect(cp(60)).toBeGreaterThan(cp(40));
  });

  it('refuse parts that do not add up, naming the field', () => {
    const bad = { composition: food(50, 25, 50, 2, 2), temperatureC: 20 };
    expect(() => choiOkosSpecificHeatKJPerKgK(bad)).toThrow(InputError);
    expect(() => choiOkosSpecificHeatKJPerKgK(bad)).toThrow(/add up to 97 to 103/);
    expect(() => choiOkosDensityKgPerM3({ composition: food(-1, 25, 72, 2, 2), temperatureC: 20 })).toThrow(
      /composition\.waterPercent/,
    );
    expect(() => choiOkosDensityKgPerM3({ composition: food(50, 21, 25, 2, 2), temperatureC: 151 })).toThrow(
      /temperatureC/,
    );
  });
});

describe('water', () => {
  it.each([
    [4, 999.97, 813],
    [20, 998.2, 2333],
    [40, 992.22, 7384],
    [60, 983.2, 20020],
    [80, 971.8, 48040],
  ])('has its known density and vapour pressure at %d °C', (temperatureC, density, pressure) => {
    expect(Math.abs(waterDensityKgPerM3(temperatureC) - density)).toBeLessThan(0.06);
    expect(Math.abs(saturationPressurePa(temperatureC) / pressure - 1)).toBeLessThan(0.006);
  });

  it('takes less heat to evaporate when warm, and is refused as ice or steam', () => {
    expect(evaporationHeatKJPerKg(0)).toBe(2501);
    expect(evaporationHeatKJPerKg(60)).toBeCloseTo(2359.3, 1);
    expect(() => waterDensityKgPerM3(-1)).toThrow(/0 to 100/);
    expect(() => saturationPressurePa(101)).toThrow(InputError);
    expect(() => evaporationHeatKJPerKg(Number.NaN)).toThrow(InputError);
  });
});
