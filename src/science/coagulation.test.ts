import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import {
  clottingRatePerMin,
  clottingState,
  clottingTime,
  clottingTimeMin,
  clottingValidity,
  cutTime,
  FLOCCULATION_MULTIPLIERS,
} from './coagulation.ts';

const usual = { doseImcuPerL: 50, temperatureC: 31, pH: 6.6, heatTreatment: 'raw' } as const;
const between = (field: 'temperatureC' | 'pH' | 'doseImcuPerL' | 'addedCalciumMM'): fc.Arbitrary<number> =>
  fc.double({ min: clottingValidity[field]?.low ?? 0, max: clottingValidity[field]?.high ?? 1, noNaN: true });

function refusal(run: () => unknown): InputError {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error('was not refused');
}

describe('clotting time', () => {
  it('is a quarter of an hour at the reference dose, temperature and pH', () => {
    expect(clottingTime(usual).p50).toBeCloseTo(15, 9);
  });

  it('follows the table of the science notes over temperature and pH', () => {
    const at = (temperatureC: number, pH = 6.6): number => clottingTime({ ...usual, temperatureC, pH }).p50;
    expect([25, 28, 30, 32, 34, 36, 38].map((t) => Number(at(t).toFixed(1)))).toEqual([
      27.1, 19.2, 16.1, 14.1, 12.6, 11.7, 11.2,
    ]);
    expect([6.8, 6.7, 6.5, 6.4].map((pH) => Number(at(31, pH).toFixed(1)))).toEqual([24.7, 19.3, 11.7, 9.1]);
  });

  it('is longer in colder milk, sweeter milk and with less rennet, and shorter with calcium', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 21, max: 39, noNaN: true }),
        between('pH'),
        between('doseImcuPerL'),
        between('addedCalciumMM'),
        (temperatureC, pH, doseImcuPerL, addedCalciumMM) => {
          const state = clottingState({ temperatureC, pH, doseImcuPerL, addedCalciumMM });
          const time = clottingTimeMin(state);
          expect(clottingTimeMin({ ...state, temperatureC: temperatureC - 0.5 })).toBeGreaterThan(time);
          expect(clottingTimeMin({ ...state, pH: pH + 0.05 })).toBeGreaterThan(time);
          expect(clottingTimeMin({ ...state, doseImcuPerL: doseImcuPerL * 0.9 })).toBeCloseTo(time / 0.9, 6);
          expect(clottingTimeMin({ ...state, addedCalciumMM: addedCalciumMM + 1 })).toBeLessThanOrEqual(time);
        },
      ),
      { seed: 20261125, numRuns: 200 },
    );
  });

  it('comes out alike whether taken at once or added up minute by minute', () => {
    const state = clottingState({ ...usual, temperatureC: 36 });
    let progress = 0;
    let minutes = 0;
    while (progress < 1) {
      progress += clottingRatePerMin(state) * 0.01;
      minutes += 0.01;
    }
    expect(minutes).toBeCloseTo(clottingTimeMin(state), 1);
  });

  it('has a band of a factor 1.5 either way, and narrower once the maker has a factor of their own', () => {
    const first = clottingTime(usual);
    expect(first.p95 / first.p50).toBeCloseTo(1.5, 6);
    const own = clottingTime({ ...usual, makerFactor: 1.3 });
    expect(own.p50).toBeCloseTo(19.5, 6);
    expect(own.p95 / own.p50).toBeLessThan(first.p95 / first.p50);
  });

  it('is slower in high-heat milk unless the milk is acid, and faster in the milk of ewes', () => {
    expect(clottingTime({ ...usual, pH: 6.5, heatTreatment: 'high-heat' }).p50).toBeCloseTo(
      3 * clottingTime({ ...usual, pH: 6.5 }).p50,
      6,
    );
    const sour = { ...usual, pH: 5.8 };
    expect(clottingTime({ ...sour, heatTreatment: 'high-heat' }).p50).toBeCloseTo(clottingTime(sour).p50, 9);
    expect(clottingTime({ ...usual, species: 'sheep' }).p50).toBeLessThan(clottingTime(usual).p50);
  });

  it('is refused for UHT milk, milk too cold and a sour pH, all named at once', () => {
    const refused = { doseImcuPerL: 50, temperatureC: 12, pH: 4.9, heatTreatment: 'uht' } as const;
    const error = refusal(() => clottingTime(refused));
    expect(error.problems.map((problem) => problem.field)).toEqual(['temperatureC', 'pH', 'heatTreatment']);
    expect(error.outsideModel).toBe(true);
    expect(error.message).toContain('acid and heat');
  });

  it('never goes forward in UHT milk, nor below 13 or above 52.25 °C', () => {
    expect(clottingRatePerMin(clottingState({ ...usual, heatTreatment: 'uht' }))).toBe(0);
    expect(clottingRatePerMin(clottingState({ ...usual, heatTreatment: 'uht', pH: 5.8 }))).toBe(0);
    expect(clottingRatePerMin(clottingState({ ...usual, temperatureC: 13 }))).toBe(0);
    expect(clottingRatePerMin(clottingState({ ...usual, temperatureC: 60 }))).toBe(0);
  });
});

describe('cutting by flocculation', () => {
  it('multiplies the time seen, error and all', () => {
    expect(cutTime({ flocculationMin: 12, multiplier: 3, errorMin: 1 })).toEqual({ p5: 33, p50: 36, p95: 39 });
  });

  it('has a typical multiplier inside its own span for every family', () => {
    for (const { low, typical, high } of Object.values(FLOCCULATION_MULTIPLIERS)) {
      expect(low).toBeLessThanOrEqual(typical);
      expect(typical).toBeLessThanOrEqual(high);
    }
  });

  it('refuses a multiplier nobody means', () => {
    expect(() => cutTime({ flocculationMin: 12, multiplier: 12, errorMin: 1 })).toThrow(InputError);
  });
});
