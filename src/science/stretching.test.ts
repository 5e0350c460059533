import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { cheeseThermal, type CheeseThermal } from './cheese-thermal.ts';
import { bowlCourse, bowlLoss, bowlWaterKg, minutesUntilCore, type BowlInput } from './stretching-bowl.ts';
import {
  stretchLosses,
  stretchMixesC,
  stretchWaterKg,
  STRETCH_WINDOW,
  type StretchWaterInput,
} from './stretching-water.ts';
import { constantLoss } from './vat.ts';

const curd: StretchWaterInput = { curdKg: 1, curdC: 30, waterC: 80, curdKJPerKgK: 3.09 };

describe('water for stretching', () => {
  it('follows the balance: 1.11 kg of 80 °C water takes a kilogram from 30 to 60 °C', () => {
    expect(stretchWaterKg({ ...curd, targetC: 60 })).toBeCloseTo((3.09 * 30) / (4.18 * 20), 9);
  });

  it('is found again by mixing it, in any number of pours', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 20, noNaN: true }),
        fc.integer({ min: 1, max: 4 }),
        fc.double({ min: 50, max: 65, noNaN: true }),
        (curdKg, pours, targetC) => {
          const input = { ...curd, curdKg, pours };
          const waterKg = stretchWaterKg({ ...input, targetC });
          const mixes = stretchMixesC({ ...input, waterKg });
          expect(mixes).toHaveLength(pours);
          expect(mixes.at(-1)).toBeCloseTo(targetC, 5);
        },
      ),
      { seed: 20261125, numRuns: 60 },
    );
  });

  it('two small pours heat further than one of the same water', () => {
    const one = stretchMixesC({ ...curd, waterKg: 1 }).at(-1) ?? 0;
    expect(stretchMixesC({ ...curd, waterKg: 0.5, pours: 2 }).at(-1)).toBeGreaterThan(one);
  });

  it('is more for a cold bowl, and scales with the curd, not the milk', () => {
    const base = stretchWaterKg({ ...curd, targetC: 58 });
    expect(stretchWaterKg({ ...curd, targetC: 58, bowlKJPerK: 0.6, bowlC: 20 })).toBeGreaterThan(base);
    expect(stretchWaterKg({ ...curd, curdKg: 3, targetC: 58 })).toBeCloseTo(3 * base, 6);
    expect(stretchWaterKg({ ...curd, targetC: 25 })).toBe(0);
  });

  it('cannot be cooler than its target', () => {
    expect(() => stretchWaterKg({ ...curd, waterC: 58, targetC: 60 })).toThrow(InputError);
    expect(() => stretchWaterKg({ ...curd, curdKg: 0, targetC: 60 })).toThrow(/curdKg/);
  });

  it('takes some 2 to 4 % of the fat and half a percent of the protein along', () => {
    const lost = stretchLosses({ waterPerCurd: 1.5, curdFatPercent: 22, curdProteinPercent: 21 });
    expect(lost.fatLowPercent).toBeCloseTo(1.9, 1);
    expect(lost.fatHighPercent).toBeCloseTo(3.8, 1);
    expect(lost.proteinLowPercent).toBeCloseTo(0.43, 2);
    expect(lost.proteinHighPercent).toBeCloseTo(0.86, 2);
  });

  it('aims inside its window', () => {
    const { startC, aimLowC, aimHighC, warnAboveC } = STRETCH_WINDOW;
    expect([startC, aimLowC, aimHighC, warnAboveC]).toEqual([50, 55, 60, 62]);
  });
});

const thermal: CheeseThermal = {
  densityKgPerM3: 1047,
  specificHeatKJPerKgK: 3.09,
  conductivityWPerMK: 1.18e-7 * 1047 * 3090,
  diffusivityM2PerS: 1.18e-7,
};
const bowl: BowlInput = {
  curdKg: 1,
  curdC: 32,
  thermal,
  pieceMm: 15,
  waterKg: 1.5,
  waterC: 82,
  roomC: 20,
  loss: bowlLoss({ contentsKg: 2.5, roomC: 20 }),
};

describe('pieces in a bowl', () => {
  it('in water held at 75 °C take a minute for 1 cm and five for 2.5 cm until the centre is at 55 °C', () => {
    // Our own calculation (no source): a regression, 56 and 300 s.
    const held = (pieceMm: number): number | null =>
      minutesUntilCore({
        course: bowlCourse({ ...bowl, pieceMm, waterKg: 20_000, waterC: 75, loss: constantLoss(0) }),
        targetC: 56,
      });
    expect(held(10)).toBeCloseTo(56 / 60, 1);
    expect(held(25)).toBeCloseTo(5.05, 1);
  });

  it('keep their energy: without losses everything meets at the balance', () => {
    const last = bowlCourse({ ...bowl, loss: constantLoss(0), lastMinutes: 90 }).at(-1);
    const balance = (3.09 * 32 + 1.5 * 4.18 * 82) / (3.09 + 1.5 * 4.18);
    expect(last?.waterC).toBeCloseTo(balance, 6);
    expect(last?.meanC).toBeCloseTo(balance, 6);
    expect(last?.coreC).toBeCloseTo(balance, 3);
    const halfway = bowlCourse({ ...bowl, loss: constantLoss(0) })[3];
    expect(3.09 * (halfway?.meanC ?? 0) + 1.5 * 4.18 * (halfway?.waterC ?? 0)).toBeCloseTo(
      3.09 * 32 + 1.5 * 4.18 * 82,
      6,
    );
  });

  it('meet at the two-pour balance too', () => {
    const [, second = 0] = stretchMixesC({
      curdKg: 1,
      curdC: 32,
      waterC: 82,
      waterKg: 0.8,
      pours: 2,
      curdKJPerKgK: 3.09,
    });
    const long = { pours: 2, waterKg: 0.8, loss: constantLoss(0), minutesPerPour: 60, lastMinutes: 90 };
    expect(bowlCourse({ ...bowl, ...long }).at(-1)?.meanC).toBeCloseTo(second, 4);
  });

  it('of 2.5 cm never get to 54 °C on their mean with a kilogram of water, small ones do', () => {
    const peak = (pieceMm: number): number =>
      Math.max(...bowlCourse({ ...bowl, waterKg: 1, pieceMm }).map((point) => point.meanC));
    expect(peak(25)).toBeLessThan(54);
    expect(peak(10)).toBeGreaterThan(56);
  });

  it('lose their heat to the room at 1 to 1.7 K a minute', () => {
    const course = bowlCourse({ ...bowl, pieceMm: 5 });
    const fall = (course[7]?.waterC ?? 0) - (course[11]?.waterC ?? 0);
    expect(fall).toBeGreaterThan(1);
    expect(fall).toBeLessThan(1.7);
  });

  it('need more water than the plain balance says', () => {
    const real = bowlWaterKg({ ...bowl, targetC: 58 }) ?? 0;
    const plain = stretchWaterKg({ curdKg: 1, curdC: 32, waterC: 82, curdKJPerKgK: 3.09, targetC: 58 });
    expect(real / plain).toBeGreaterThan(1.2);
    expect(real / plain).toBeLessThan(1.8);
    expect(Math.max(...bowlCourse({ ...bowl, waterKg: real }).map((point) => point.meanC))).toBeCloseTo(58, 1);
    expect(bowlWaterKg({ ...bowl, pieceMm: 100, targetC: 75 })).toBeNull();
  });

  it('say null when the bowl has cooled before the core is warm', () => {
    expect(minutesUntilCore({ course: bowlCourse({ ...bowl, waterKg: 0.7, pieceMm: 30 }), targetC: 60 })).toBeNull();
  });
});

describe('curd as a conductor', () => {
  it('has the diffusivity of cheese and leaves room for protein', () => {
    const of = cheeseThermal({ moisturePercent: 50, fatPercent: 25, temperatureC: 20 });
    expect(of.diffusivityM2PerS).toBeGreaterThan(1.1e-7);
    expect(of.diffusivityM2PerS).toBeLessThan(1.3e-7);
    expect(of.specificHeatKJPerKgK).toBeCloseTo(3.07, 2);
    expect(() => cheeseThermal({ moisturePercent: 70, fatPercent: 40, temperatureC: 20 })).toThrow(/fatPercent/);
  });
});
