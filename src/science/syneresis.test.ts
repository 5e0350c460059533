import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { milkComposition } from './milk.ts';
import {
  CURD_MOISTURE_ERROR,
  syneresisRate,
  syneresisRatePerMin,
  type SyneresisState,
  WHEY_END_FRACTION,
  wheyEndFractionFor,
  wheyFractionAfter,
} from './syneresis.ts';
import {
  curdAndWhey,
  curdBasis,
  curdMoistureKernel,
  type Parts,
  solventShareKernel,
  totalKg,
  wheyFractionForMoisture,
  wheyFractionForSolvent,
  wheyLPerLMilk,
} from './syneresis-balance.ts';
import { vatRecovery } from './yield-families.ts';

const usual: SyneresisState = { temperatureC: 32, pH: 6.5, cubeMm: 10, stirring: 'gentle' };
const vat = vatRecovery('stretched');
const PARTS: readonly (keyof Parts)[] = [
  'waterKg',
  'fatKg',
  'caseinKg',
  'wheyProteinKg',
  'lactoseKg',
  'saltsKg',
  'otherKg',
];
const wholeMilk = milkComposition({ species: 'cow', fatPercent: 3.7, proteinPercent: 3.3 });

describe('syneresis', () => {
  it('is 0.030 a minute at the reference', () => {
    expect(syneresisRate(usual)).toBeCloseTo(0.03, 12);
  });

  it('is faster warmer, sourer, in smaller cubes and with stirring', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 18, max: 49, noNaN: true }),
        fc.double({ min: 4.8, max: 6.8, noNaN: true }),
        fc.double({ min: 4, max: 60, noNaN: true }),
        (temperatureC, pH, cubeMm) => {
          const state: SyneresisState = { temperatureC, pH, cubeMm, stirring: 'gentle' };
          const rate = syneresisRatePerMin(state);
          expect(syneresisRatePerMin({ ...state, temperatureC: temperatureC + 0.5 })).toBeGreaterThan(rate);
          expect(syneresisRatePerMin({ ...state, pH: pH - 0.1 })).toBeGreaterThan(rate);
          expect(syneresisRatePerMin({ ...state, cubeMm: cubeMm * 0.9 })).toBeGreaterThan(rate);
          expect(syneresisRatePerMin({ ...state, stirring: 'still' })).toBeLessThan(rate);
          expect(syneresisRatePerMin({ ...state, stirring: 'drained' })).toBeGreaterThan(rate);
        },
      ),
      { seed: 20261125, numRuns: 200 },
    );
  });

  it('gains nothing above 50 °C, where a skin forms', () => {
    expect(syneresisRate({ ...usual, temperatureC: 58 })).toBeCloseTo(
      syneresisRate({ ...usual, temperatureC: 50 }),
      12,
    );
  });

  it('comes out alike in one long step or many short ones', () => {
    const step = { wheyEndFraction: 0.87, ratePerMin: 0.05 };
    let whey = 0;
    for (let i = 0; i < 90; i++) whey = wheyFractionAfter({ ...step, wheyFraction: whey, minutes: 0.5 });
    expect(whey).toBeCloseTo(wheyFractionAfter({ ...step, wheyFraction: 0, minutes: 45 }), 12);
  });

  it('never takes whey back into the curd', () => {
    expect(wheyFractionAfter({ wheyFraction: 0.9, wheyEndFraction: 0.86, ratePerMin: 0.1, minutes: 60 })).toBe(0.9);
  });

  it('refuses a temperature that no curd is kept at', () => {
    expect(() => syneresisRate({ ...usual, temperatureC: 80 })).toThrow(InputError);
  });
});

describe('curd and whey', () => {
  const speciesMilk = fc.record({
    species: fc.constantFrom('cow' as const, 'goat' as const, 'sheep' as const, 'buffalo' as const),
    fatPercent: fc.double({ min: 0.1, max: 9, noNaN: true }),
    proteinPercent: fc.double({ min: 2.8, max: 6, noNaN: true }),
  });

  it('add up to the milk in mass, water, fat, casein, lactose and salts, to a thousandth and far better', () => {
    fc.assert(
      fc.property(speciesMilk, fc.double({ min: 0, max: 0.8, noNaN: true }), (milk, wheyFraction) => {
        const basis = curdBasis(milkComposition(milk), vat);
        const { curd, whey, curdKg, wheyKg } = curdAndWhey({ basis, wheyFraction });
        expect(curdKg + wheyKg).toBeCloseTo(100, 8);
        expect(wheyKg).toBeCloseTo(100 * wheyFraction, 8);
        for (const part of PARTS) {
          expect(curd[part] + whey[part]).toBeCloseTo(basis.milk[part], 9);
          expect(whey[part]).toBeGreaterThanOrEqual(-1e-12);
        }
        expect(totalKg(basis.milk)).toBeCloseTo(100, 8);
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  it('give the same moisture by the fast form and by the balance', () => {
    const basis = curdBasis(wholeMilk, vat);
    for (const wheyFraction of [0, 0.2, 0.5, 0.7, 0.86]) {
      expect(curdMoistureKernel(basis, wheyFraction)).toBeCloseTo(
        curdAndWhey({ basis, wheyFraction }).moisturePercent,
        9,
      );
    }
    expect(curdMoistureKernel(basis, 0)).toBeCloseTo(wholeMilk.waterPercent, 9);
    expect(wheyFractionForMoisture(basis, curdMoistureKernel(basis, 0.84))).toBeCloseTo(0.84, 12);
  });

  it('keep a little water with the casein, that carries no lactose, and all the rest as solvent', () => {
    const basis = curdBasis(wholeMilk, vat);
    expect(basis.boundWaterKg + basis.solventWaterKg).toBeCloseTo(basis.milk.waterKg, 12);
    expect(solventShareKernel(basis, 0)).toBeCloseTo(1, 12);
    for (const wheyFraction of [0.55, 0.7, 0.86]) {
      const share = solventShareKernel(basis, wheyFraction);
      const waterKg = curdAndWhey({ basis, wheyFraction }).curd.waterKg;
      expect(share * basis.solventWaterKg + basis.boundWaterKg).toBeCloseTo(waterKg, 9);
      expect(wheyFractionForSolvent(basis, share)).toBeCloseTo(wheyFraction, 12);
    }
    const { milk, recovery } = basis;
    const otherKg = milk.wheyProteinKg + milk.saltsKg + milk.otherKg - recovery.mineralsPerCasein * milk.caseinKg;
    expect(basis.otherPerSolventWater * basis.solventWaterKg).toBeCloseTo(otherKg, 9);
  });

  it('leave drier curd the more whey has gone', () => {
    const basis = curdBasis(wholeMilk, vat);
    let before = Number.POSITIVE_INFINITY;
    for (let wheyFraction = 0; wheyFraction < 0.9; wheyFraction += 0.01) {
      const moisture = curdMoistureKernel(basis, wheyFraction);
      expect(moisture).toBeLessThan(before);
      before = moisture;
    }
  });

  it('of a stretched curd end between 45 and 60 % moisture, drier for a string than for a ball', () => {
    const basis = curdBasis(wholeMilk, vat);
    const at = (wheyEndFraction: number): number =>
      curdMoistureKernel(basis, wheyEndFractionFor({ wheyEndFraction, gelSolidsKg: basis.gelSolidsKg }));
    expect(at(WHEY_END_FRACTION.stretched)).toBeGreaterThan(50);
    expect(at(WHEY_END_FRACTION.stretched)).toBeLessThan(58);
    expect(at(0.86)).toBeGreaterThan(52);
    expect(at(0.86)).toBeLessThan(60);
    expect(at(0.88)).toBeGreaterThan(45);
    expect(at(0.88)).toBeLessThan(52);
  });

  it('end within a point of the same moisture in the milk of ewes, with more curd', () => {
    const cow = curdBasis(wholeMilk, vat);
    const sheep = curdBasis(milkComposition({ species: 'sheep' }), vat);
    const end = (basis: typeof cow): number =>
      wheyEndFractionFor({ wheyEndFraction: 0.865, gelSolidsKg: basis.gelSolidsKg });
    // Its serum holds more whey protein, so a little less of it is water.
    const drier = curdMoistureKernel(cow, end(cow)) - curdMoistureKernel(sheep, end(sheep));
    expect(Math.abs(drier)).toBeLessThan(1);
    expect(1 - end(sheep)).toBeGreaterThan(1.3 * (1 - end(cow)));
  });

  it('carry the stated error: the spread of the end alone is worth about 8 points', () => {
    const basis = curdBasis(wholeMilk, vat);
    const end = (shift: number): number =>
      wheyEndFractionFor({ wheyEndFraction: 0.865 + shift, gelSolidsKg: basis.gelSolidsKg });
    const shift = 1.645 * CURD_MOISTURE_ERROR.wheyEndFractionSd;
    const wide = curdMoistureKernel(basis, end(-shift)) - curdMoistureKernel(basis, end(shift));
    expect(wide / 2).toBeGreaterThanOrEqual(CURD_MOISTURE_ERROR.halfWidthPoints);
    expect(wide / 2).toBeLessThan(12);
  });

  it('measure about 0.87 L of whey a litre of milk when 86 % of the mass has left', () => {
    expect(wheyLPerLMilk({ wheyFraction: 0.86, milkDensityKgPerL: 1.03 })).toBeCloseTo(0.864, 3);
  });

  it('are refused when more whey would leave than there is serum', () => {
    expect(() => curdAndWhey({ basis: curdBasis(wholeMilk, vat), wheyFraction: 0.99 })).toThrow(InputError);
  });
});
