import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { CHEESE_FAMILIES, STRETCHING_LOSS, vatRecovery, YIELD_FAMILIES } from './yield-families.ts';
import {
  adjustedYield,
  fatForDryMatterPercent,
  fatInDryMatterPercent,
  moistureInFatFreePercent,
  retentionYield,
  stretchingLosses,
  yieldForecast,
} from './yield.ts';

const milk = { fatPercent: 3.7, caseinPercent: 2.55 };

describe('yield', () => {
  it('of a soft ball is 11 to 14 kg, of a firm string 9.5 to 12.5 kg from 100 kg of whole milk', () => {
    const ball = yieldForecast({ ...milk, moisturePercent: 55, family: 'stretched' });
    const string = yieldForecast({ ...milk, moisturePercent: 48, family: 'stretched' });
    expect(ball.kgPer100kg).toBeGreaterThan(11);
    expect(ball.kgPer100kg).toBeLessThan(14);
    expect(string.kgPer100kg).toBeGreaterThan(9.5);
    expect(string.kgPer100kg).toBeLessThan(12.5);
    expect(ball.bandPercent).toBe(17);
  });

  it('grows with fat, casein, moisture and what is kept', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...CHEESE_FAMILIES),
        fc.double({ min: 0.5, max: 8, noNaN: true }),
        fc.double({ min: 2, max: 6, noNaN: true }),
        fc.double({ min: 30, max: 80, noNaN: true }),
        (family, fatPercent, caseinPercent, moisturePercent) => {
          const input = { family, fatPercent, caseinPercent, moisturePercent };
          const { kgPer100kg } = yieldForecast(input);
          expect(yieldForecast({ ...input, fatPercent: fatPercent + 0.5 }).kgPer100kg).toBeGreaterThan(kgPer100kg);
          expect(yieldForecast({ ...input, caseinPercent: caseinPercent + 0.2 }).kgPer100kg).toBeGreaterThan(
            kgPer100kg,
          );
          expect(yieldForecast({ ...input, moisturePercent: moisturePercent + 1 }).kgPer100kg).toBeGreaterThan(
            kgPer100kg,
          );
          expect(yieldForecast({ ...input, fatRecovery: 0.5 }).kgPer100kg).toBeLessThan(kgPer100kg);
        },
      ),
      { seed: 20261125, numRuns: 200 },
    );
  });

  it('uses Van Slyke and Price for Cheddar, the general form elsewhere, retention where a factor is given', () => {
    const input = { ...milk, moisturePercent: 37 };
    expect(yieldForecast({ ...input, family: 'cheddar' })).toMatchObject({ form: 'van-slyke', bandPercent: 3 });
    expect(yieldForecast({ ...input, fatPercent: 2, family: 'cheddar' }).bandPercent).toBe(8);
    expect(yieldForecast({ ...input, family: 'cheddar', form: 'general' })).toMatchObject({
      form: 'general',
      bandPercent: 8,
    });
    const retention = yieldForecast({ ...input, family: 'cheddar', solidsFactor: 1.09, fatRecovery: 0.92 });
    expect(retention.form).toBe('retention');
    expect(retention.kgPer100kg).toBeCloseTo(
      retentionYield({ ...input, fatRecovery: 0.92, caseinRecovery: 0.96, solidsFactor: 1.09 }),
      12,
    );
  });

  it('keeps fat, moisture and the fat-free part in step', () => {
    const cheese = { fatPercent: 24, moisturePercent: 50 };
    expect(fatInDryMatterPercent(cheese)).toBeCloseTo(48, 12);
    expect(moistureInFatFreePercent(cheese)).toBeCloseTo((100 * 50) / 76, 12);
    expect(fatForDryMatterPercent({ fatInDryMatterPercent: 48, moisturePercent: 50 })).toBeCloseTo(24, 12);
  });

  it('adjusted to another moisture and back is the same', () => {
    const there = adjustedYield({
      kgPer100kg: 10,
      moisturePercent: 50,
      saltPercent: 1,
      toMoisturePercent: 55,
      toSaltPercent: 1.5,
    });
    expect(there).toBeGreaterThan(10);
    expect(
      adjustedYield({
        kgPer100kg: there,
        moisturePercent: 55,
        saltPercent: 1.5,
        toMoisturePercent: 50,
        toSaltPercent: 1,
      }),
    ).toBeCloseTo(10, 12);
  });

  it('refuses 80 % fat, and two forms at once', () => {
    expect(() => yieldForecast({ fatPercent: 80, caseinPercent: 2.5, moisturePercent: 37, family: 'cheddar' })).toThrow(
      'fatPercent',
    );
    expect(() =>
      yieldForecast({ ...milk, moisturePercent: 37, family: 'cheddar', form: 'van-slyke', solidsFactor: 1.1 }),
    ).toThrow(InputError);
  });
});

describe('hot stretching water', () => {
  it('takes fat and protein out of the curd and nothing else', () => {
    const lost = stretchingLosses({
      curdKg: 2,
      fatPercent: 24,
      proteinPercent: 20,
      fatLossFraction: 0.07,
      proteinLossFraction: 0.01,
    });
    expect(lost.fatLostKg).toBeCloseTo(0.0336, 9);
    expect(lost.proteinLostKg).toBeCloseTo(0.004, 9);
    expect(lost.curdLeftKg).toBeCloseTo(2 - 0.0376, 9);
  });

  it('explains the difference between what vat and cheese keep', () => {
    const { stretched } = YIELD_FAMILIES;
    expect(vatRecovery('stretched').fatRecovery - STRETCHING_LOSS.fat.typical).toBeCloseTo(stretched.fatRecovery, 12);
    expect(vatRecovery('stretched').caseinRecovery - STRETCHING_LOSS.protein.typical).toBeCloseTo(
      stretched.caseinRecovery,
      12,
    );
    expect(vatRecovery('washed').fatRecovery).toBe(YIELD_FAMILIES.washed.fatRecovery);
  });
});
