import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ACIDITY_UNITS, acidityScales, milkAcidityDornic, serumAcidityDornic } from './acidity.ts';
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

describe('titratable acidity of whey', () => {
  const cow = {
    caseinGPerL: 26,
    wheyProteinGPerL: 6,
    solublePhosphateMM: 10.5,
    citrateMM: 8.5,
    colloidalPhosphateMM: 10.5,
  };
  const whey = { startDornic: 16, composition: cow, startPH: 6.64, pH: 6.64, lactateMM: 0, strength: 1, dissolvedPhosphateMM: 0 }; // prettier-ignore

  it('is about 11 °D while it is sweet, and rises as it sours', () => {
    expect(serumAcidityDornic(whey)).toBeCloseTo(11.2, 6);
    expect(serumAcidityDornic({ ...whey, pH: 6.2, lactateMM: 8 })).toBeGreaterThan(13);
    expect(serumAcidityDornic({ ...whey, pH: 6.2, lactateMM: 8 })).toBeLessThan(16);
  });

  it('halves with as much water as whey', () => {
    expect(serumAcidityDornic({ ...whey, strength: 0.5 })).toBeCloseTo(5.6, 6);
  });

  it('of drained curd is that of sweet whey several times over, by the phosphate that dissolves into so little serum', () => {
    const sour = { ...whey, pH: 5.3, lactateMM: 150 };
    expect(serumAcidityDornic({ ...sour, dissolvedPhosphateMM: 38 })).toBeGreaterThan(
      serumAcidityDornic(sour) + 0.9 * 38,
    );
    expect(() => serumAcidityDornic({ ...whey, pH: 3 })).toThrow(/pH/);
  });
});
