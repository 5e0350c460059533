/** What holds for every input: more of a cause moves its effect one way. Chance is seeded. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CHEESE_FAMILIES } from '../../src/science/yield-families.ts';
import { ask, askFor } from '../ask.ts';
import { between, expectRising, RUNS } from './runs.ts';

/** A point every quarter minute, the first after one. */
const CURVE_AT_TWO_MINUTES = 7;

describe('nature goes one way', () => {
  const clot = (changes: object): number =>
    askFor('flocculationMinutes.p50', {
      name: 'clot',
      input: { doseIMCUPerL: 45, temperatureC: 32, pH: 6.5, ...changes },
    });

  it('more rennet, more acid, more calcium and more warmth up to the best clot sooner', () => {
    fc.assert(
      fc.property(between(10, 150), between(5.9, 6.7), between(24, 38), (doseIMCUPerL, pH, temperatureC) => {
        const at = { doseIMCUPerL, pH, temperatureC };
        expect(clot({ ...at, doseIMCUPerL: 1.1 * doseIMCUPerL })).toBeLessThan(clot(at));
        expect(clot({ ...at, pH: pH - 0.1 })).toBeLessThan(clot(at));
        expect(clot({ ...at, temperatureC: temperatureC + 1 })).toBeLessThan(clot(at));
        expect(clot({ ...at, addedCalciumMM: 1 })).toBeLessThan(clot(at));
      }),
      RUNS,
    );
  });

  it('bigger pieces take longer to cool, and to warm', () => {
    fc.assert(
      fc.property(between(10, 150), between(1, 12), between(15, 40), (mm, bathC, targetCoreC) => {
        const minutes = (diameter: number): number =>
          ask('cool', { shape: 'sphere', mm: [diameter], fromC: 58, bathC, targetCoreC })['minutes'] ?? 0;
        expectRising([minutes(mm), minutes(1.1 * mm), minutes(1.5 * mm)]);
      }),
      RUNS,
    );
    const core = (pieceMm: number): number =>
      askFor(`curve.${CURVE_AT_TWO_MINUTES}.coreC`, {
        name: 'stretch-water',
        input: { curdKg: 1, curdC: 34, targetC: 58, waterC: 80, pieceMm, bowlWPerK: 0 },
      });
    expectRising([core(60), core(40), core(25), core(15)]);
  });

  it('stronger brine, warmer brine and longer hours salt more; a bigger ball less', () => {
    fc.assert(
      fc.property(
        between(8, 20),
        between(5, 20),
        between(0.3, 20),
        between(30, 80),
        (brinePercent, temperatureC, hours, mm) => {
          const salt = (changes: object): number =>
          ask('brine-time', {
            shape: 'sphere', mm: [mm], moisturePercent: 57, brinePercent, temperatureC, hours, ...changes,
          })['saltPercent'] ?? 0; // prettier-ignore
          const here = salt({});
          expect(salt({ brinePercent: 1.1 * brinePercent })).toBeGreaterThan(here);
          expect(salt({ temperatureC: temperatureC + 1 })).toBeGreaterThan(here);
          expect(salt({ hours: 1.1 * hours })).toBeGreaterThan(here);
          expect(salt({ mm: [1.1 * mm] })).toBeLessThan(here);
        },
      ),
      RUNS,
    );
  });

  it('a stronger burner is quicker, more milk and a colder room are slower', () => {
    fc.assert(
      fc.property(between(2, 50), between(600, 5000), between(40, 80), (volumeL, heaterW, toC) => {
        const minutes = (changes: object): number =>
          ask('heat', { volumeL, fromC: 6, toC, heaterW: heaterW + 60 * volumeL, roomC: 20, ...changes })['minutes'] ??
          0;
        const here = minutes({});
        expect(minutes({ heaterW: 1.1 * (heaterW + 60 * volumeL) })).toBeLessThan(here);
        expect(minutes({ lid: true })).toBeLessThan(here);
        expect(minutes({ volumeL: 1.1 * volumeL })).toBeGreaterThan(here);
      }),
      RUNS,
    );
  });

  it('more fat, more casein and more moisture give more cheese', () => {
    fc.assert(
      fc.property(between(3, 6), between(2, 3.5), between(34, 50), fc.constantFrom(...CHEESE_FAMILIES), (fatPercent, caseinPercent, moisturePercent, family) => {
        const kg = (changes: object): number =>
          ask('yield', { fatPercent, caseinPercent, moisturePercent, family, ...changes })['kgPer100kg'] ?? 0;
        expect(kg({ fatPercent: fatPercent + 0.2 })).toBeGreaterThan(kg({}));
        expect(kg({ caseinPercent: caseinPercent + 0.1 })).toBeGreaterThan(kg({}));
        expect(kg({ moisturePercent: moisturePercent + 1 })).toBeGreaterThan(kg({}));
      }),
      RUNS,
    ); // prettier-ignore
  });

  it('hotter water burns sooner, and milk held hotter counts for more', () => {
    const burn = (waterC: number): number => ask('scald', { waterC })['secondsToBlister'] ?? Number.NaN;
    for (let waterC = 46; waterC < 60; waterC++) expect(burn(waterC + 1)).toBeLessThan(burn(waterC));
    const lethal = (temperatureC: number): number =>
      ask('pasteurise', {
        readings: [0, 5, 10, 15].map((minute) => ({ minute, temperatureC })),
        thermometerErrorC: 0,
      })['lethalityMinutesAt63C'] ?? 0;
    expectRising([lethal(58), lethal(60), lethal(63), lethal(66)]);
  });

  it('more culture brings a pH sooner', () => {
    const minutesTo = (packetFraction: number): number =>
      askFor('minutesToPH.6.p50', {
        name: 'ripen',
        input: {
          culture: { kind: 'thermophilic', packetFraction },
          temperatureProfile: [{ minute: 0, temperatureC: 40 }],
          minutes: 900,
          targets: [6],
          members: 60,
        },
      });
    expectRising([minutesTo(4), minutesTo(2), minutesTo(1), minutesTo(0.5)]);
  });
});
