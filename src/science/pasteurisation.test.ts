import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coldestPlausible, creditedHold, type HeatReading, judgedHold } from './pasteurisation-hold.ts';
import {
  HEAT_TARGETS,
  lethalityMinutes,
  secondsAt72C,
  secondsPerTenfold,
  segmentLethalityKernel,
  tenfoldReductions,
} from './pasteurisation-lethality.ts';
import { legalPairs, meetsLegalPair } from './pasteurisation.ts';

const milk = { fatPercent: 3.6 };
const curve = (...points: readonly (readonly [number, number, string?])[]): HeatReading[] =>
  points.map(([minute, temperatureC, probe]) => ({ minute, temperatureC, ...(probe === undefined ? {} : { probe }) }));
const judged = (readings: readonly HeatReading[], thermometerErrorC = 0, maxGapMinutes?: number) =>
  judgedHold({
    curves: coldestPlausible({ readings, thermometerErrorC }),
    pairs: legalPairs({ ...milk, rule: 'us' }),
    ...(maxGapMinutes === undefined ? {} : { maxGapMinutes }),
  });
const steady = (temperatureC: number, minutes: number, everyMinutes = 5): HeatReading[] =>
  Array.from({ length: minutes / everyMinutes + 1 }, (_, i) => ({ minute: i * everyMinutes, temperatureC }));

describe('the legal pairs', () => {
  it('rise by three degrees for cream, sweetened milk and thickened milk', () => {
    expect(legalPairs(milk).map((pair) => pair.temperatureC)).toEqual([63, 72]);
    expect(legalPairs({ fatPercent: 9.9 })[0]?.temperatureC).toBe(63);
    expect(legalPairs({ fatPercent: 10 })[0]?.temperatureC).toBe(66);
    expect(legalPairs({ fatPercent: 3.6, isSweetened: true })[0]?.temperatureC).toBe(66);
    expect(legalPairs({ fatPercent: 3.6, totalSolidsPercent: 18 })[1]?.temperatureC).toBe(75);
  });

  it('are two in Europe and seven in the United States, where a Fahrenheit thermometer reads 145 °F', () => {
    expect(legalPairs({ ...milk, rule: 'eu' })).toHaveLength(2);
    expect(legalPairs({ ...milk, rule: 'us' }).map((pair) => pair.temperatureC)).toEqual([63, 72, 89, 90, 94, 96, 100]);
    expect(legalPairs({ ...milk, rule: 'us', scale: 'F' })[0]?.temperatureC).toBeCloseTo(62.778, 3);
    expect(legalPairs({ fatPercent: 12, rule: 'us', scale: 'F' })[0]?.temperatureC).toBeCloseTo((150 - 32) / 1.8, 9);
    expect(legalPairs({ ...milk, rule: 'eu', scale: 'F' })[0]?.temperatureC).toBe(63);
  });

  it('are met by a hold, never by a sum: 64 °C for 18 minutes is none', () => {
    expect(meetsLegalPair({ temperatureC: 63, holdSeconds: 1800, milk })).toBe(true);
    expect(meetsLegalPair({ temperatureC: 72, holdSeconds: 15, milk })).toBe(true);
    expect(meetsLegalPair({ temperatureC: 64, holdSeconds: 18 * 60, milk })).toBe(false);
    expect(meetsLegalPair({ temperatureC: 62.9, holdSeconds: 3600, milk })).toBe(false);
    expect(meetsLegalPair({ temperatureC: 63, holdSeconds: 1800, milk: { fatPercent: 12 } })).toBe(false);
  });
});

describe('a logged heating', () => {
  it('is credited from the first hot reading to the last, with nothing before or after', () => {
    const { hold, meetsMinimum } = judged([...curve([-5, 60]), ...steady(63, 30), ...curve([35, 60])]);
    expect(meetsMinimum).toBe(true);
    expect(hold).toMatchObject({ creditedSeconds: 1800, fromMinute: 0, toMinute: 30, isBrokenByGap: false });
    expect(judged(steady(63, 25)).meetsMinimum).toBe(false);
  });

  it('is broken by one cold reading, and by a gap that nobody watched', () => {
    const dip = steady(64, 40).map((reading) => (reading.minute === 20 ? { ...reading, temperatureC: 62.9 } : reading));
    expect(judged(dip)).toMatchObject({ meetsMinimum: false, hold: { creditedSeconds: 900 } });
    const gap = steady(64, 40).filter(({ minute }) => minute !== 20);
    expect(judged(gap)).toMatchObject({ meetsMinimum: false, hold: { isBrokenByGap: true } });
    expect(judged(gap, 0, 10)).toMatchObject({ meetsMinimum: true, hold: { widestGapMinutes: 10 } });
  });

  it('counts the coldest of several probes, and only the time that all of them show', () => {
    const core = steady(66, 40).map((reading) => ({ ...reading, probe: 'core' }));
    const wall = steady(63, 40).map((reading) => ({
      ...reading,
      probe: 'wall',
      temperatureC: reading.minute < 15 ? 62 : 63,
    }));
    expect(judged([...core, ...wall])).toMatchObject({ meetsMinimum: false, hold: { creditedSeconds: 25 * 60 } });
    expect(judged(core).meetsMinimum).toBe(true);
    expect(judged([...core, ...curve([0, 66, 'wall'], [40, 66, 'wall'])]).meetsMinimum).toBe(false);
  });

  it('is judged by the nearest pair: a minute at 72 °C read every two seconds is a short hold', () => {
    const flash = Array.from({ length: 11 }, (_, i) => ({ minute: i / 30, temperatureC: 72.4 }));
    expect(judged(flash)).toMatchObject({ meetsMinimum: true, hold: { pair: { temperatureC: 72, seconds: 15 } } });
    expect(judged(flash, 0.5).meetsMinimum).toBe(false);
    expect(judged(curve([0, 73], [5, 73])).meetsMinimum).toBe(false);
  });

  it('never meets the law by its sum: the sum may be twice the law and the hold still short', () => {
    const readings = steady(66, 15);
    expect(lethalityMinutes({ curves: coldestPlausible({ readings, thermometerErrorC: 0 }) })).toBeGreaterThan(60);
    expect(judged(readings).meetsMinimum).toBe(false);
  });

  it('only loses by a larger error, a shorter gap allowed or a colder reading', () => {
    const temperature = fc.double({ min: 58, max: 76, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(temperature, { minLength: 2, maxLength: 20 }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        (temperatures, error) => {
          const readings = temperatures.map((temperatureC, i) => ({ minute: 4 * i, temperatureC }));
          const [pair = { temperatureC: 63, seconds: 1800 }] = legalPairs(milk);
          const hold = (errorC: number, maxGapMinutes: number): number =>
            creditedHold({ curves: coldestPlausible({ readings, thermometerErrorC: errorC }), pair, maxGapMinutes })
              .creditedSeconds;
          expect(hold(error, 5)).toBeLessThanOrEqual(hold(0, 5));
          expect(hold(0, 3)).toBe(0);
          const curves = coldestPlausible({ readings, thermometerErrorC: error });
          const best = lethalityMinutes({ curves });
          expect(lethalityMinutes({ curves, isConservative: true })).toBeLessThanOrEqual(best * (1 + 1e-12));
          expect(best).toBeLessThanOrEqual(
            lethalityMinutes({ curves: coldestPlausible({ readings, thermometerErrorC: 0 }) }) * (1 + 1e-12),
          );
        },
      ),
      { seed: 20261125, numRuns: 300 },
    );
  });
});

describe('the lethality sum', () => {
  it('makes the two legal pairs equal', () => {
    const at = (temperatureC: number, minutes: number): number =>
      segmentLethalityKernel({
        minutes,
        fromC: temperatureC,
        toC: temperatureC,
        referenceC: 63,
        zK: 9 / Math.log10(120),
      });
    expect(at(63, 30)).toBe(30);
    expect(at(72, 0.25)).toBeCloseTo(30, 9);
    expect(secondsAt72C(30)).toBe(15);
  });

  it('of a straight climb is what many small flat steps add up to', () => {
    const zK = 9 / Math.log10(120);
    const whole = segmentLethalityKernel({ minutes: 10, fromC: 60, toC: 66, referenceC: 63, zK });
    let small = 0;
    const steps = 20_000;
    for (let i = 0; i < steps; i++) {
      const temperatureC = 60 + (6 * (i + 0.5)) / steps;
      small += segmentLethalityKernel({
        minutes: 10 / steps,
        fromC: temperatureC,
        toC: temperatureC,
        referenceC: 63,
        zK,
      });
    }
    expect(whole).toBeCloseTo(small, 6);
  });

  it('gives a germ its own tenfold time', () => {
    const curves = [[{ minute: 0, temperatureC: 63 }, { minute: 30, temperatureC: 63 }]]; // prettier-ignore
    const target = HEAT_TARGETS.coxiellaBurnetii;
    expect(tenfoldReductions({ curves, target })).toBeCloseTo(
      1800 / secondsPerTenfold({ target, temperatureC: 63 }),
      9,
    );
    expect(lethalityMinutes({ curves: [] })).toBe(0);
  });
});
