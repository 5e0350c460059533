import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { MILK_SPECIES, milkComposition, milkDensityKgPerM3, milkSpecificHeatKJPerKgK } from './milk.ts';

describe('milk', () => {
  it.each(MILK_SPECIES)('of the %s adds up to one whole', (species) => {
    const milk = milkComposition({ species });
    expect(milk.waterPercent + milk.fatPercent + milk.solidsNotFatPercent).toBeCloseTo(100, 10);
    expect(milk.caseinPercent + milk.wheyProteinPercent).toBeLessThan(milk.proteinPercent);
  });

  // Per litre, as the acid model was tuned with (casein, whey protein, lactose): 26/6/137, 25/6/128, 45/10.5/137, 37/7/140.
  it.each([
    ['cow', 26, 137],
    ['goat', 25, 128],
    ['sheep', 45, 137],
    ['buffalo', 37, 140],
  ] as const)(
    'of the %s carries about the casein and lactose the acid model was tuned with',
    (species, cn, lactose) => {
      const milk = milkComposition({ species });
      expect(Math.abs(milk.caseinGPerL / cn - 1)).toBeLessThan(0.05);
      expect(Math.abs(milk.lactoseMM / lactose - 1)).toBeLessThan(0.17);
      expect(
        Math.abs(milk.colloidalPhosphateMM / milk.caseinGPerL - (species === 'cow' ? 10.5 / 26 : 0.42)),
      ).toBeLessThan(0.05);
    },
  );

  it('keeps its fat-free part when it is skimmed', () => {
    const whole = milkComposition({ species: 'cow' });
    const skim = milkComposition({ species: 'cow', fatPercent: 0.1 });
    expect(skim.proteinPercent / (100 - 0.1)).toBeCloseTo(whole.proteinPercent / (100 - 4), 10);
  });

  it('of a naturally rich cow has more casein, without a jump at either end', () => {
    const casein = (fatPercent: number) => milkComposition({ species: 'cow', fatPercent }).caseinPercent;
    expect(casein(5)).toBeCloseTo(casein(4) + 0.4, 6);
    for (const fat of [4, 5]) expect(Math.abs(casein(fat + 1e-6) - casein(fat - 1e-6))).toBeLessThan(1e-5);
  });

  it('takes its casein from its protein and its protein from its casein', () => {
    expect(milkComposition({ species: 'cow', proteinPercent: 3.2 }).caseinPercent).toBeCloseTo(2.496, 6);
    expect(milkComposition({ species: 'cow', caseinPercent: 2.496 }).proteinPercent).toBeCloseTo(3.2, 6);
  });

  it('refuses fat of 80 %, a pH of wine, and more casein than protein, all at once where it can', () => {
    let fields: string[] = [];
    try {
      milkComposition({ species: 'cow', fatPercent: 80, pH: 3.2 });
    } catch (error) {
      if (error instanceof InputError) fields = error.problems.map((problem) => problem.field);
    }
    expect(fields).toEqual(['fatPercent', 'pH']);
    expect(() => milkComposition({ species: 'cow', proteinPercent: 3.2, caseinPercent: 3.1 })).toThrow(/casein/i);
  });

  it('weighs less the warmer and the fatter it is', () => {
    fc.assert(
      fc.property(fc.double({ min: 5, max: 70, noNaN: true }), fc.double({ min: 0, max: 10, noNaN: true }), (t, f) => {
        const at = (fatPercent: number, temperatureC: number) =>
          milkDensityKgPerM3({ fatPercent, solidsNotFatPercent: 8.9, temperatureC });
        expect(at(f, t + 1)).toBeLessThan(at(f, t));
        expect(at(f + 1, t)).toBeLessThan(at(f, t));
      }),
      { seed: 20261125, numRuns: 100 },
    );
  });

  it('weighs 1.026 kg a litre at 32 °C and takes 3.9 kJ to warm a kilogram by a degree', () => {
    const milk = milkComposition({ species: 'cow', fatPercent: 3.8 });
    expect(milkDensityKgPerM3({ ...milk, temperatureC: 32 })).toBeCloseTo(1026, 0);
    expect(Math.abs(milkSpecificHeatKJPerKgK({ composition: milk, temperatureC: 32 }) - 3.9)).toBeLessThan(0.03);
    expect(() => milkSpecificHeatKJPerKgK({ composition: milk, temperatureC: 99 })).toThrow(/temperatureC/);
    expect(() => milkDensityKgPerM3({ ...milk, temperatureC: -4 })).toThrow(/temperatureC/);
  });
});
