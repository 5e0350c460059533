import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { ageingCurve, learnedLeak } from './ageing-learn.ts';
import { agedMassKg, type AgeingInput, airVapourTransfer, filmPermeance, openExposure, RINDS } from './ageing.ts';
import { equivalentRipeningDays } from './ripening-time.ts';

const seed = 20261125;
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const wheel: AgeingInput = {
  massKg: 4,
  body: { shape: 'cylinder', mm: [220, 100] },
  moisturePercent: 42,
  temperatureC: 13,
  relativeHumidityPercent: 85,
  rind: 'bare',
};
const lostKg = (days: number, changes: Partial<AgeingInput> = {}): number =>
  wheel.massKg - agedMassKg({ ...wheel, ...changes, days });

describe('a cheese that ages', () => {
  it('dries more in drier, warmer air and over a longer time, and never gains', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...RINDS),
        number(2, 24),
        number(60, 96),
        number(1, 400),
        (rind, temperatureC, relativeHumidityPercent, days) => {
          const room = { rind, temperatureC, relativeHumidityPercent };
          const lost = lostKg(days, room);
          expect(lost).toBeGreaterThanOrEqual(0);
          expect(lostKg(days + 10, room)).toBeGreaterThanOrEqual(lost);
          expect(lostKg(days, { ...room, temperatureC: temperatureC + 1 })).toBeGreaterThanOrEqual(lost);
          expect(
            lostKg(days, { ...room, relativeHumidityPercent: relativeHumidityPercent - 5 }),
          ).toBeGreaterThanOrEqual(lost);
        },
      ),
      { seed, numRuns: 300 },
    );
  });

  it('does not dry in air as moist as itself', () => {
    expect(lostKg(100, { relativeHumidityPercent: 97 })).toBe(0);
    expect(lostKg(100, { relativeHumidityPercent: 100 })).toBe(0);
  });

  it('loses with the square root of time once its rind has closed', () => {
    expect(lostKg(120) / lostKg(30)).toBeCloseTo(2, 1);
  });

  it('loses a little every day, and always as much, under wax', () => {
    expect(lostKg(60, { rind: 'waxed' }) / lostKg(30, { rind: 'waxed' })).toBeGreaterThan(1.9);
    expect(lostKg(60, { rind: 'waxed' })).toBeLessThan(lostKg(60) / 3);
    expect(lostKg(60, { rind: 'vacuum' })).toBeLessThan(0.02);
  });

  it('keeps the water that even a grating cheese keeps', () => {
    expect(agedMassKg({ ...wheel, relativeHumidityPercent: 40, temperatureC: 25, days: 1500 })).toBeCloseTo(
      (4 * 0.58) / 0.85,
      9,
    );
  });

  it('adds up in closed form to what small steps add up to, with and without a coat', () => {
    for (const coat of [Number.POSITIVE_INFINITY, 2e-9, 1e-11, 1e-16]) {
      const rind = { air: 1.7e-8, fall: 2e-6, coat };
      let sum = 0;
      const step = 50;
      for (let t = step / 2; t < 2e6; t += step) {
        sum += step / (1 / Math.min(rind.air, rind.fall / Math.sqrt(t)) + 1 / coat);
      }
      expect(openExposure({ ...rind, seconds: 2e6 }) / sum).toBeCloseTo(1, 4);
    }
  });

  it('gives its water to the air as fast as heat and vapour move alike', () => {
    // Design table, 12 °C: 1, 2, 3, 5, 8 W/(m2 K).
    for (const [heatWPerM2K, table] of [[1, 0.68], [2, 1.35], [3, 2], [5, 3.4], [8, 5.4]] as const) {
      expect(Math.abs(1e8 * airVapourTransfer({ heatWPerM2K, temperatureC: 12 }) - table)).toBeLessThan(0.04);
    } // prettier-ignore
  });

  it('refuses a room, a mass or a size that is none', () => {
    expect(() => agedMassKg({ ...wheel, temperatureC: 40, days: 3 })).toThrow(InputError);
    expect(() => agedMassKg({ ...wheel, body: { shape: 'sphere', mm: [100, 20] }, days: 3 })).toThrow('mm');
    expect(() => agedMassKg({ ...wheel, leakFactor: 0, days: 3 })).toThrow('leakFactor');
  });
});

describe('weighings', () => {
  it('of a rind half as leaky or twice as leaky teach that within a tenth', () => {
    for (const leakFactor of [0.5, 0.8, 1.25, 2]) {
      const weighings = [14, 28].map((day) => ({ day, massKg: agedMassKg({ ...wheel, leakFactor, days: day }) }));
      const learned = learnedLeak({ ...wheel, weighings });
      expect(Math.abs(learned.factor / leakFactor - 1)).toBeLessThan(0.1);
      const [end] = ageingCurve({ ...wheel, weighings, days: [60] });
      const truth = agedMassKg({ ...wheel, leakFactor, days: 60 });
      expect(end?.p5).toBeLessThan(truth);
      expect(end?.p95).toBeGreaterThan(truth);
    }
  });

  it('narrow the band, the later the more', () => {
    const width = (days: readonly number[]): number => {
      const weighings = days.map((day) => ({ day, massKg: agedMassKg({ ...wheel, days: day }) }));
      const [end = { p5: 0, p95: 0 }] = ageingCurve({ ...wheel, weighings, days: [90] });
      return end.p95 - end.p5;
    };
    expect(width([7])).toBeLessThan(width([]) / 2);
    expect(width([7, 45])).toBeLessThan(width([7]));
  });

  it('say little where a scale can hardly see the loss, and nothing on day 0', () => {
    const start = learnedLeak({ ...wheel, weighings: [{ day: 0, massKg: 4 }] });
    expect(start.factor).toBe(1);
    const vague = learnedLeak({ ...wheel, relativeHumidityPercent: 96.9, weighings: [{ day: 1, massKg: 3.999 }] });
    expect(vague.logSd).toBeGreaterThan(0.9 * start.logSd);
  });

  it('above the mass of the start are refused by their place in the list', () => {
    expect(() => learnedLeak({ ...wheel, weighings: [{ day: 3, massKg: 3.9 }, { day: 9, massKg: 5 }] })).toThrow(
      'weighings[1].massKg',
    ); // prettier-ignore
  });
});

describe('a film', () => {
  it('lets through what its sheet says, in the air it was measured in', () => {
    const film = filmPermeance({ gPerM2PerDay: 500, measuredAtC: 12, humidityDifferencePercent: 12 });
    expect(lostKg(30, { film })).toBeLessThan(lostKg(30));
    // The same number measured warm and wet is a far tighter film.
    const warm = filmPermeance({ gPerM2PerDay: 500, measuredAtC: 38, humidityDifferencePercent: 90 });
    expect(film / warm).toBeGreaterThan(4);
  });
});

describe('equivalent ripening time', () => {
  it('counts a day at 12 °C for 1.32 at 8 °C and one at 16 °C for 1.74, by its assumption', () => {
    const days = (temperatureC: number): number =>
      equivalentRipeningDays({ stays: [{ days: 1, temperatureC }], referenceC: 8 }).days;
    expect(days(12)).toBeCloseTo(1.32, 2);
    expect(days(16)).toBeCloseTo(1.74, 2);
  });

  it('comes with a band that closes only at the reference itself', () => {
    const stays = [
      { days: 30, temperatureC: 12 },
      { days: 10, temperatureC: 4 },
    ];
    const { days, low, high } = equivalentRipeningDays({ stays, referenceC: 10 });
    expect(low).toBeLessThan(days);
    expect(high).toBeGreaterThan(days);
    expect(equivalentRipeningDays({ stays: [{ days: 7, temperatureC: 10 }], referenceC: 10 })).toEqual({
      days: 7,
      low: 7,
      high: 7,
    });
    expect(() => equivalentRipeningDays({ stays: [{ days: -1, temperatureC: 10 }], referenceC: 10 })).toThrow('days');
    expect(() => equivalentRipeningDays({ stays, referenceC: 30 })).toThrow(InputError);
  });
});
