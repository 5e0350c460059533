import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { additionKg, mixed, twoAdditionsKg } from './standardise.ts';

const milk = { massKg: 100, fatPercent: 4, caseinPercent: 2.63 };
const skim = { fatPercent: 0.1, caseinPercent: 2.73 };
const cream = { fatPercent: 36, caseinPercent: 1.75 };
const powder = { fatPercent: 0.8, caseinPercent: 27.3 };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('standardising milk', () => {
  it('takes cream for more fat and skim milk for less', () => {
    expect(additionKg({ milk, addition: cream, targetFatPercent: 5 })).toBeCloseTo(100 / 31, 9);
    expect(additionKg({ milk, addition: skim, targetFatPercent: 3 })).toBeCloseTo(100 / 2.9, 9);
    expect(additionKg({ milk, addition: skim, targetFatPercent: 4 })).toBe(0);
  });

  it('lands where it was meant to land, by fat or by casein to fat', () => {
    fc.assert(
      fc.property(
        number(1, 6),
        number(2, 3.4),
        number(0.02, 0.98),
        fc.constantFrom(skim, cream, powder),
        (fatPercent, caseinPercent, way, addition) => {
          const start = { massKg: 40, fatPercent, caseinPercent };
          const targetFatPercent = fatPercent + way * (addition.fatPercent - fatPercent);
          const vat = mixed([start, { ...addition, massKg: 3 }]);
          expect(vat.massKg).toBe(43);
          try {
            const addKg = additionKg({ milk: start, addition, targetFatPercent });
            expect(mixed([start, { ...addition, massKg: addKg }]).fatPercent).toBeCloseTo(targetFatPercent, 9);
          } catch (error) {
            if (!(error instanceof InputError)) throw error;
            expect(way).toBeGreaterThan(0.9);
          }
          const targetCaseinToFat = vat.caseinPercent / vat.fatPercent;
          expect(additionKg({ milk: start, addition, targetCaseinToFat })).toBeCloseTo(3, 6);
        },
      ),
      { seed: 20261125, numRuns: 300 },
    );
  });

  it('meets fat and casein to fat at once by one balance', () => {
    const [creamKg, powderKg] = twoAdditionsKg({
      milk,
      additions: [cream, powder],
      targetFatPercent: 4.2,
      targetCaseinToFat: 0.72,
    });
    const vat = mixed([milk, { ...cream, massKg: creamKg }, { ...powder, massKg: powderKg }]);
    expect(vat.fatPercent).toBeCloseTo(4.2, 9);
    expect(vat.caseinPercent / vat.fatPercent).toBeCloseTo(0.72, 9);
    // Two squares, one after the other, miss the first target by undoing it.
    const square = additionKg({ milk, addition: cream, targetFatPercent: 4.2 });
    const once = mixed([milk, { ...cream, massKg: square }]);
    const chained = mixed([
      once,
      { ...powder, massKg: additionKg({ milk: once, addition: powder, targetCaseinToFat: 0.72 }) },
    ]);
    expect(Math.abs(chained.fatPercent - 4.2)).toBeGreaterThan(0.01);
  });

  it('refuses what no amount can do: more fat from skim milk, a fat richer than the cream, less than nothing of either', () => {
    expect(() => additionKg({ milk, addition: skim, targetFatPercent: 5 })).toThrow('targetFatPercent');
    expect(() => additionKg({ milk, addition: cream, targetFatPercent: 40 })).toThrow(InputError);
    expect(() => additionKg({ milk, addition: cream, targetFatPercent: 36 })).toThrow(InputError);
    expect(() => additionKg({ milk, addition: cream, targetCaseinToFat: 0.9 })).toThrow('targetCaseinToFat');
    expect(() =>
      twoAdditionsKg({ milk, additions: [cream, powder], targetFatPercent: 4.2, targetCaseinToFat: 0.3 }),
    ).toThrow('less than nothing');
    expect(() =>
      twoAdditionsKg({ milk, additions: [cream, cream], targetFatPercent: 4.2, targetCaseinToFat: 0.7 }),
    ).toThrow(InputError);
  });

  it('wants one target for one addition', () => {
    expect(() => additionKg({ milk, addition: skim })).toThrow('targetFatPercent');
    expect(() => additionKg({ milk, addition: skim, targetFatPercent: 3, targetCaseinToFat: 0.9 })).toThrow(InputError);
  });
});
