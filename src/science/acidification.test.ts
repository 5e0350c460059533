import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minuteAtPH, ripen, ripenKernel, type RipenInput } from './acidification-make.ts';
import { temperatureFactor } from './acidification.ts';
import { CULTURES, type CultureKind } from './culture.ts';

/** The cow's milk the model was tuned with. */
const COW = {
  caseinGPerL: 26,
  wheyProteinGPerL: 6,
  solublePhosphateMM: 10.5,
  citrateMM: 8.5,
  colloidalPhosphateMM: 10.5,
  lactoseMM: 137,
};

const milkAt = (kind: CultureKind, cellsPerMl: number, temperatureC: number): RipenInput => ({
  make: { minutes: 24 * 60, temperatureProfile: [{ minute: 0, temperatureC }] },
  composition: COW,
  culture: CULTURES[kind],
  cellsPerL: cellsPerMl * 1000,
  lagWork: 0.3,
  startPH: 6.62,
});

const STRETCHED: RipenInput = {
  ...milkAt('yoghurt', 2e7, 37),
  make: {
    minutes: 360,
    temperatureProfile: [
      { minute: 0, temperatureC: 36 },
      { minute: 90, temperatureC: 36 },
      { minute: 120, temperatureC: 41 },
    ],
    cutMinute: 75,
    wash: { minute: 130, drawFraction: 0.3, waterFraction: 0.25 },
    drainMinute: 160,
  },
};

const hoursTo = (input: RipenInput, targetPH: number): number => {
  const curve = ripen(input);
  return (minuteAtPH({ ...curve, targetPH }) ?? Number.NaN) / 60;
};

describe('milk with a culture', () => {
  // Regression table of the model: hours to pH 6.4, 6.0, 5.2, 4.6, and pH at 24 h; within 2 % and the rounding of the table.
  it.each([
    ['mesophilic', 2e7, 22, 2.9, 4.4, 6.7, 10.2, 4.29],
    ['mesophilic', 2e7, 30, 2.0, 3.0, 4.6, 6.9, 4.24],
    ['mesophilic', 2e7, 38, 3.7, 5.6, 8.5, 12.9, 4.33],
    ['mesophilic', 5e6, 30, 3.2, 4.3, 5.9, 8.3, 4.25],
    ['mesophilic-aromatic', 5e6, 20, 6.7, 8.7, 12.0, 17.5, 4.41],
    ['mesophilic-aromatic', 2e7, 22, 3.8, 5.5, 8.3, 13.0, 4.33],
    ['thermophilic', 5e6, 37, 2.4, 3.1, 4.4, 6.2, 4.22],
    ['thermophilic', 2e7, 42, 1.3, 2.0, 3.0, 4.6, 4.21],
    ['yoghurt', 5e6, 40, 1.9, 2.7, 3.7, 4.8, 4.07],
    ['yoghurt', 2e7, 37, 1.2, 2.1, 3.2, 4.4, 4.07],
    ['yoghurt', 2e7, 42, 1.0, 1.7, 2.6, 3.6, 4.07],
  ] as const)(
    '%s at %d cells/mL and %d °C sours as tabulated',
    (kind, cells, temperatureC, to64, to60, to52, to46, end) => {
      const input = milkAt(kind, cells, temperatureC);
      const table: [number, number][] = [
        [6.4, to64],
        [6.0, to60],
        [5.2, to52],
        [4.6, to46],
      ];
      for (const [pH, hours] of table) {
        expect(Math.abs(hoursTo(input, pH) - hours)).toBeLessThan(0.02 * hours + 0.05);
      }
      expect(Math.abs((ripen(input).pH.at(-1) ?? 0) - end)).toBeLessThan(0.011);
    },
  );

  it('sours sooner with more culture, and milk that is warmer up to the optimum sours sooner', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('thermophilic', 'yoghurt', 'thermophilic-helveticus'),
        fc.double({ min: 30, max: 40, noNaN: true }),
        fc.double({ min: 1e6, max: 3e7, noNaN: true }),
        (kind, temperatureC, cells) => {
          const base = hoursTo(milkAt(kind, cells, temperatureC), 5.2);
          expect(hoursTo(milkAt(kind, cells * 1.5, temperatureC), 5.2)).toBeLessThan(base);
          expect(hoursTo(milkAt(kind, cells, temperatureC + 1.5), 5.2)).toBeLessThan(base);
        },
      ),
      { seed: 20261125, numRuns: 40 },
    );
  });

  it('stands still when it is too hot or too cold for the culture', () => {
    for (const temperatureC of [4, 55]) {
      expect(ripen(milkAt('thermophilic', 2e7, temperatureC)).pH.at(-1)).toBe(6.62);
    }
    expect(temperatureFactor(CULTURES.thermophilic, 42)).toBeCloseTo(1, 12);
    expect(temperatureFactor(CULTURES.mesophilic, 40.5)).toBe(0);
  });

  it('waits longer for a culture that has to wake up', () => {
    expect(
      hoursTo({ ...milkAt('yoghurt', 2e7, 37), lagWork: 1.2 }, 5.2) - hoursTo(milkAt('yoghurt', 2e7, 37), 5.2),
    ).toBeCloseTo(0.59, 0.5);
  });
});

describe('curd', () => {
  it('sours faster once it is drained than milk that is never cut', () => {
    expect(hoursTo(STRETCHED, 5.2)).toBeLessThan(
      hoursTo({ ...STRETCHED, make: { minutes: 360, temperatureProfile: STRETCHED.make.temperatureProfile } }, 5.2),
    );
  });

  it('of a culture that leaves galactose ends sweeter the more of its whey is replaced with water', () => {
    const end = (waterFraction: number, drawFraction: number) => {
      const make = {
        minutes: 1440,
        temperatureProfile: [{ minute: 0, temperatureC: 37 }],
        cutMinute: 60,
        wash: { minute: 90, drawFraction, waterFraction },
        drainMinute: 150,
        drainSerumL: 0.1,
        finalSerumL: 0.042,
      };
      return ripen({ ...STRETCHED, exchangePerHour: 1.8, make }).pH.at(-1) ?? 0;
    };
    const ends = [end(0, 0), end(0.3, 0.33), end(0.36, 0.4), end(0.54, 0.6)];
    for (let i = 1; i < ends.length; i++) expect(ends[i] ?? 0).toBeGreaterThan((ends[i - 1] ?? 9) + 0.01);
  });

  it('does not depend on the step: 4 min is within 0.005 pH of 0.1 min, in curd and in whey', () => {
    const coarse = ripenKernel(STRETCHED);
    const fine = ripenKernel({ ...STRETCHED, stepMin: 0.1 });
    const fineAt = (values: Float64Array, minute: number): number => {
      const j = Math.max(
        1,
        fine.minute.findIndex((m) => m >= minute - 1e-9),
      );
      const [start, end] = [fine.minute[j - 1] ?? 0, fine.minute[j] ?? 0];
      return (values[j - 1] ?? 0) + ((minute - start) / (end - start)) * ((values[j] ?? 0) - (values[j - 1] ?? 0));
    };
    let worst = 0;
    coarse.minute.forEach((minute, i) => {
      worst = Math.max(worst, Math.abs((coarse.pH[i] ?? 0) - fineAt(fine.pH, minute)));
      worst = Math.max(worst, Math.abs((coarse.wheyPH[i] ?? 0) - fineAt(fine.wheyPH, minute)));
    });
    expect(worst).toBeLessThan(0.005);
  });

  it('slows down when it is salted', () => {
    const salted = { ...STRETCHED, make: { ...STRETCHED.make, saltMinute: 180, saltFactor: 0.1 } };
    expect(ripen(salted).pH.at(-1) ?? 0).toBeGreaterThan((ripen(STRETCHED).pH.at(-1) ?? 9) + 0.1);
  });

  it('never turns sweeter on its own, whatever the make', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 30, max: 120 }),
        fc.integer({ min: 20, max: 120 }),
        fc.double({ min: 0, max: 0.8, noNaN: true }),
        fc.double({ min: 28, max: 45, noNaN: true }),
        (cutMinute, stir, share, temperatureC) => {
          const make = {
            minutes: 480,
            temperatureProfile: [{ minute: 0, temperatureC }],
            cutMinute,
            drainMinute: cutMinute + stir,
            wash: { minute: cutMinute + stir / 2, drawFraction: share, waterFraction: share },
          };
          const { pH } = ripen({ ...STRETCHED, make });
          for (let i = 1; i < pH.length; i++) {
            expect(Number.isFinite(pH[i])).toBe(true);
            // A strong wash may lift the curd a little through the exchange.
            expect((pH[i] ?? 0) - (pH[i - 1] ?? 0)).toBeLessThan(0.02);
          }
        },
      ),
      { seed: 20261125, numRuns: 40 },
    );
  });

  it('cannot be drained before it is cut, nor washed afterwards; every problem is told', () => {
    const make = { ...STRETCHED.make, drainMinute: 60, wash: { minute: 300, drawFraction: 0.3, waterFraction: 0.3 } };
    expect(() => ripen({ ...STRETCHED, make })).toThrow(/drainMinute[\s\S]*wash\.minute/);
    expect(() => ripen({ ...STRETCHED, startPH: 8 })).toThrow(/startPH/);
    expect(() => ripen({ ...STRETCHED, make: { ...STRETCHED.make, temperatureProfile: [] } })).toThrow(/at least one/);
    const hot = [{ minute: 0, temperatureC: 98.6 }];
    expect(() => ripen({ ...STRETCHED, make: { ...STRETCHED.make, temperatureProfile: hot } })).toThrow(/temperatureC/);
  });
});
