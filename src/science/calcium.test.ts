import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { calciumDose, calciumSolutionDensityKgPerL } from './calcium.ts';

/** 100 kg of milk at 1.03 kg/L, at the legal maximum. */
const full = (solutionPercent: number) => calciumDose({ milkL: 100 / 1.03, gPerL: 0.206, solutionPercent });

describe('calcium chloride', () => {
  it('at the legal maximum is 20 g in 100 kg, 1.80 mmol per kg, 26.5 g of dihydrate', () => {
    const dose = full(33);
    expect(dose.anhydrousG).toBeCloseTo(20, 6);
    expect(dose.percentOfLegalMaximum).toBeCloseTo(100, 6);
    expect(dose.addedCalciumMM / 1.03).toBeCloseTo(1.8, 2);
    expect(dose.dihydrateG).toBeCloseTo(26.5, 1);
    expect(dose.pHFall).toBeGreaterThanOrEqual(0.05);
    expect(dose.pHFall).toBeLessThanOrEqual(0.1);
  });

  it('needs 52, 46 or 43 mL of a 30, 33 or 35 percent solution for that', () => {
    expect([30, 33, 35].map((percent) => Math.round(full(percent).volumeMl))).toEqual([52, 46, 43]);
  });

  it('is heavier the stronger the solution', () => {
    const percents = [1, 5, 10, 15, 20, 25, 30, 31, 33, 34, 35, 38, 40];
    const densities = percents.map(calciumSolutionDensityKgPerL);
    expect(densities.toSorted((a, b) => a - b)).toEqual(densities);
    expect(calciumSolutionDensityKgPerL(0)).toBeCloseTo(0.998, 9);
  });

  it('refuses a solution stronger than one can be', () => {
    expect(() => calciumDose({ milkL: 10, gPerL: 0.1, solutionPercent: 77 })).toThrow(InputError);
  });
});
