import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { acidToReachPH, pHAfterAcid } from './buffer-acid.ts';
import { insolubleCalciumMgPerG, solubleCalciumFraction, stretchCalciumLimitMgPerG } from './buffer-calcium.ts';
import {
  boundProtonsMM,
  bufferCapacityMMPerPH,
  bufferTable,
  protonsToReachPH,
  TABLE_COLUMN,
  tableValue,
  type BufferComposition,
} from './buffer.ts';
import { milkComposition } from './milk.ts';

const milk = (
  caseinGPerL: number,
  wheyProteinGPerL: number,
  solublePhosphateMM: number,
  citrateMM: number,
  colloidalPhosphateMM: number,
): BufferComposition => ({ caseinGPerL, wheyProteinGPerL, solublePhosphateMM, citrateMM, colloidalPhosphateMM });

/** The four milks the buffer constants were tuned with. */
const COW = milk(26, 6, 10.5, 8.5, 10.5);
const GOAT = milk(25, 6, 10.5, 6.5, 10.5);
const SHEEP = milk(45, 10.5, 12, 8, 19);
const BUFFALO = milk(37, 7, 11, 8.5, 17);

const PH = [6.4, 6.2, 6.0, 5.8, 5.6, 5.5, 5.4, 5.2, 5.0, 4.8, 4.6];

describe('the buffer of milk', () => {
  // Regression table of the model (rounded to 1 mmol/L when it was written down).
  it.each([
    ['cow', COW, 6.65, [4, 7, 10, 14, 19, 21, 25, 33, 42, 51, 61]],
    ['goat', GOAT, 6.6, [3, 6, 9, 13, 17, 20, 23, 30, 39, 48, 57]],
    ['sheep', SHEEP, 6.63, [5, 10, 15, 20, 27, 31, 36, 50, 65, 79, 95]],
    ['buffalo', BUFFALO, 6.7, [5, 9, 14, 19, 24, 28, 33, 44, 57, 70, 83]],
  ] as const)('of the %s needs the tabulated lactic acid at every pH', (_species, composition, fromPH, expected) => {
    PH.forEach((toPH, i) => {
      const { quick } = acidToReachPH({ composition, acid: 'lactic', fromPH, toPH });
      expect(Math.abs(quick.mmolPerL - (expected[i] ?? Number.NaN))).toBeLessThan(0.65);
    });
  });

  it('has its tabulated capacity, with the peak near pH 5.2', () => {
    const table: Record<string, number> = {
      6.6: 14,
      6.2: 17,
      6.0: 17,
      5.8: 19,
      5.6: 24,
      5.4: 33,
      5.2: 40,
      5.0: 37,
      4.8: 31,
      4.6: 28,
    };
    for (const [pH, capacity] of Object.entries(table)) {
      expect(Math.abs(bufferCapacityMMPerPH({ composition: COW, pH: Number(pH) }) - capacity)).toBeLessThan(0.7);
    }
  });

  it('takes 52 mmol of protons a litre from fresh to pH 4.6', () => {
    expect(protonsToReachPH({ composition: COW, fromPH: 6.65, toPH: 4.6 })).toBeCloseTo(52, 0);
  });

  it('is the slope of the protons it holds', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3.6, max: 7.4, noNaN: true }),
        fc.double({ min: 0, max: 150, noNaN: true }),
        (pH, lactateMM) => {
          const held = (at: number) => boundProtonsMM({ composition: SHEEP, pH: at, lactateMM });
          const slope = (held(pH - 1e-4) - held(pH + 1e-4)) / 2e-4;
          expect(slope).toBeCloseTo(bufferCapacityMMPerPH({ composition: SHEEP, pH, lactateMM }), 3);
        },
      ),
      { seed: 20261125, numRuns: 100 },
    );
  });

  it('read from its table is the exact one', () => {
    const table = bufferTable(COW);
    fc.assert(
      fc.property(fc.double({ min: 3.5, max: 7.5, noNaN: true }), (pH) => {
        const of = (column: 0 | 1 | 2 | 3 | 4 | 5) => tableValue({ table, pH, column });
        const capacity =
          of(TABLE_COLUMN.caseinCapacity) + of(TABLE_COLUMN.serumCapacity) + of(TABLE_COLUMN.colloidalCapacity);
        expect(Math.abs(capacity - bufferCapacityMMPerPH({ composition: COW, pH }))).toBeLessThan(0.01);
      }),
      { seed: 20261125, numRuns: 200 },
    );
    expect(tableValue({ table, pH: 2, column: 4 })).toBe(tableValue({ table, pH: 3.5, column: 4 }));
  });

  it('refuses a pH of stomach juice', () => {
    expect(() => boundProtonsMM({ composition: COW, pH: 2 })).toThrow(/3.5 to 7.5/);
    expect(() => protonsToReachPH({ composition: COW, fromPH: 6.6, toPH: 2 })).toThrow(/toPH/);
  });
});

describe('acid poured into milk', () => {
  // g/L, quick to slow, cow's milk from pH 6.65: citric, acetic, lactic.
  it.each([
    [5.8, 1.0, 1.1, 0.9, 1.0, 1.3, 1.4],
    [5.7, 1.15, 1.35, 1.05, 1.2, 1.5, 1.7],
    [5.6, 1.35, 1.6, 1.2, 1.45, 1.7, 2.0],
    [5.4, 1.9, 2.3, 1.7, 2.1, 2.2, 2.7],
    [5.3, 2.2, 2.65, 2.0, 2.4, 2.6, 3.0],
  ])('to pH %f spans the tabulated grams', (toPH, ...grams) => {
    (['citric', 'acetic', 'lactic'] as const).forEach((acid, i) => {
      const { quick, slow } = acidToReachPH({ composition: COW, acid, fromPH: 6.65, toPH });
      expect(Math.abs(quick.gPerL - (grams[2 * i] ?? Number.NaN))).toBeLessThan(0.075);
      expect(Math.abs(slow.gPerL - (grams[2 * i + 1] ?? Number.NaN))).toBeLessThan(0.09);
    });
  });

  it('to pH 5.6 takes more for sheep than for buffalo than for goat', () => {
    const citric = (composition: BufferComposition, fromPH: number) =>
      acidToReachPH({ composition, acid: 'citric', fromPH, toPH: 5.6 }).quick.gPerL;
    expect(citric(GOAT, 6.6)).toBeCloseTo(1.2, 1);
    expect(citric(SHEEP, 6.63)).toBeCloseTo(1.95, 1);
    expect(citric(BUFFALO, 6.7)).toBeCloseTo(1.8, 1);
  });

  it('lands where it was worked out to land, whatever the acid', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('lactic', 'citric', 'citric-monohydrate', 'acetic'),
        fc.double({ min: 4.5, max: 6.4, noNaN: true }),
        (acid, toPH) => {
          const { quick } = acidToReachPH({ composition: COW, acid, fromPH: 6.6, toPH });
          expect(pHAfterAcid({ composition: COW, acid, fromPH: 6.6, gPerL: quick.gPerL }).quick).toBeCloseTo(toPH, 5);
        },
      ),
      { seed: 20261125, numRuns: 60 },
    );
    expect(pHAfterAcid({ composition: COW, acid: 'citric', fromPH: 6.6, gPerL: 0 })).toEqual({ quick: 6.6, slow: 6.6 });
  });

  it('cannot raise the pH', () => {
    expect(() => acidToReachPH({ composition: COW, acid: 'citric', fromPH: 6.4, toPH: 6.6 })).toThrow(/only lowers/);
    expect(() => pHAfterAcid({ composition: COW, acid: 'acetic', fromPH: 6.6, gPerL: -1 })).toThrow(/gPerL/);
  });
});

describe('calcium', () => {
  const cow = { calciumMM: 30, colloidalPhosphateMM: 10.5 };

  it.each([
    [6.6, 0.34, 0.34],
    [6.0, 0.37, 0.45],
    [5.8, 0.42, 0.5],
    [5.6, 0.52, 0.6],
    [5.4, 0.66, 0.66],
    [5.2, 0.77, 0.77],
    [5.0, 0.85, 0.85],
    [4.8, 0.9, 0.9],
    [4.6, 0.93, 0.93],
  ])('is in solution at pH %f as tabulated', (pH, low, high) => {
    const share = solubleCalciumFraction({ milk: cow, pH });
    expect(share).toBeGreaterThan(low - 0.015);
    expect(share).toBeLessThan(high + 0.015);
  });

  it('stays in curd drained sweet and leaves curd drained sour', () => {
    expect(insolubleCalciumMgPerG({ drainPH: 6.3, curdPH: 6.3 })).toBeGreaterThan(
      insolubleCalciumMgPerG({ drainPH: 6.0, curdPH: 6.0 }),
    );
    const ready = insolubleCalciumMgPerG({ drainPH: 6.1, curdPH: 5.2 });
    expect(ready).toBeGreaterThan(18);
    expect(ready).toBeLessThan(23);
  });

  it('may be higher the sourer the curd before it tears', () => {
    expect(stretchCalciumLimitMgPerG(5.2)).toBe(28);
    expect(stretchCalciumLimitMgPerG(5.75)).toBeCloseTo(23.25, 6);
    expect(stretchCalciumLimitMgPerG(4.9)).toBe(28);
    expect(() => stretchCalciumLimitMgPerG(3)).toThrow(/curdPH/);
  });

  it('follows the milk the maker has', () => {
    const sheep = milkComposition({ species: 'sheep' });
    expect(solubleCalciumFraction({ milk: sheep, pH: 5.0 })).toBeGreaterThan(0.8);
  });
});
