import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ACIDITY_UNITS, acidityScales, milkAcidityDornic } from './acidity.ts';
import { acidToReachPH } from './buffer-acid.ts';

describe('titratable acidity', () => {
  it('of 18 °D is 8 °SH, 20 °Th, 1.8 g/L and 0.18 %', () => {
    expect(acidityScales({ unit: 'dornic', value: 18 }).soxhletHenkel).toBeCloseTo(8, 10);
    expect(acidityScales({ unit: 'dornic', value: 18 }).thorner).toBeCloseTo(20, 10);
    expect(acidityScales({ unit: 'dornic', value: 18 }).gLacticPerL).toBeCloseTo(1.8, 10);
    expect(acidityScales({ unit: 'percentLactic', value: 0.18 }).dornic).toBeCloseTo(18, 10);
  });

  it('comes back unchanged from every scale', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ACIDITY_UNITS), fc.double({ min: 0, max: 2, noNaN: true }), (unit, value) => {
        const scales = acidityScales({ unit, value });
        for (const other of ACIDITY_UNITS) {
          expect(acidityScales({ unit: other, value: scales[other] })[unit]).toBeCloseTo(value, 9);
        }
      }),
      { seed: 20261125, numRuns: 100 },
    );
  });

  it('cannot be negative, nor that of vinegar; the message speaks of the scale given', () => {
    expect(() => acidityScales({ unit: 'dornic', value: -1 })).toThrow(/dornic/);
    expect(() => acidityScales({ unit: 'percentLactic', value: 5 })).toThrow(/0 to 2 percentLactic/);
  });

  // Regression table of the model for cow's milk of 16 °D.
  it.each([
    [6.4, 19],
    [6.0, 25],
    [5.8, 29],
    [5.5, 35],
    [5.2, 46],
    [5.0, 54],
    [4.6, 71],
  ])('of souring milk at pH %f is %d °D', (toPH, dornic) => {
    const cow = {
      caseinGPerL: 26,
      wheyProteinGPerL: 6,
      solublePhosphateMM: 10.5,
      citrateMM: 8.5,
      colloidalPhosphateMM: 10.5,
    };
    const { quick } = acidToReachPH({ composition: cow, acid: 'lactic', fromPH: 6.65, toPH });
    expect(Math.abs(milkAcidityDornic({ startDornic: 16, lactateMM: quick.mmolPerL }) - dornic)).toBeLessThan(0.8);
    expect(() => milkAcidityDornic({ startDornic: 50, lactateMM: 1 })).toThrow(/startDornic/);
  });
});
