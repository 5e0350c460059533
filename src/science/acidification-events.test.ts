import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { modelErrorPH, bandFloorMin } from './acidification-error.ts';
import {
  addBulkStarter,
  addWheyStarter,
  drainWhey,
  expelSerum,
  splitAtCutting,
  startAcid,
  washWhey,
} from './acidification-events.ts';
import { acidParameters } from './acidification-make.ts';
import { ACID_STATE, ACID_STATE_SIZE, acidRatesPerHour, type AcidConditions } from './acidification.ts';
import { bufferTable, tableValue } from './buffer.ts';
import { CULTURES } from './culture.ts';

const S = ACID_STATE;
const table = bufferTable({
  caseinGPerL: 26,
  wheyProteinGPerL: 6,
  solublePhosphateMM: 10.5,
  citrateMM: 8.5,
  colloidalPhosphateMM: 10.5,
});
const parameters = acidParameters({ culture: CULTURES.yoghurt, buffer: table, startPH: 6.6 });

function soured(): Float64Array {
  const state = new Float64Array(ACID_STATE_SIZE);
  startAcid(state, { cellsPerL: 1e11, lagWork: 0.3, pH: 6.6, lactoseMM: 137 });
  state[S.curdPH] = 6.2;
  state[S.curdLactateMM] = 7;
  state[S.lnQ] = 3;
  splitAtCutting(state);
  return state;
}
const sum = (state: Float64Array, a: number, b: number): number => (state[a] ?? 0) + (state[b] ?? 0);
const wheyProtons = (state: Float64Array, wheyL: number): number =>
  wheyL * (state[S.wheyStrength] ?? 0) * tableValue({ table, pH: state[S.wheyPH] ?? 0, column: 5 }) +
  (state[S.wheyLactateMM] ?? 0) * tableValue({ table, pH: state[S.wheyPH] ?? 0, column: 4 });

describe('cutting, stirring, washing and draining', () => {
  it('lose no lactose, lactate or cells when whey leaves the curd, nor change the curd', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.9, noNaN: true }), (expelledL) => {
        const state = soured();
        const before = Float64Array.from(state);
        expelSerum(state, parameters, { curdSerumL: 1, wheyL: 0, expelledL, drained: false });
        expect(sum(state, S.curdLactoseMM, S.wheyLactoseMM)).toBeCloseTo(137, 9);
        expect(sum(state, S.curdLactateMM, S.wheyLactateMM)).toBeCloseTo(7, 9);
        expect(sum(state, S.cellsPerL, S.wheyCellsPerL) / 1e11).toBeCloseTo(1, 9);
        expect(state[S.curdPH]).toBe(before[S.curdPH]);
        expect(state[S.wheyPH]).toBe(6.2);
      }),
      { seed: 20261125, numRuns: 50 },
    );
  });

  it('keep the protons of sour serum that mixes with sweeter whey', () => {
    const state = soured();
    expelSerum(state, parameters, { curdSerumL: 1, wheyL: 0, expelledL: 0.5, drained: false });
    state[S.wheyPH] = 6.4;
    const into = 0.02;
    const added =
      into * tableValue({ table, pH: 6.2, column: 5 }) +
      ((state[S.curdLactateMM] ?? 0) * into * tableValue({ table, pH: 6.2, column: 4 })) / 0.5;
    const before = wheyProtons(state, 0.5);
    expelSerum(state, parameters, { curdSerumL: 0.5, wheyL: 0.5, expelledL: into, drained: false });
    expect(wheyProtons(state, 0.52)).toBeCloseTo(before + added, 3);
    expect(state[S.wheyPH]).toBeLessThan(6.4);
    expect(state[S.wheyPH]).toBeGreaterThan(6.2);
  });

  it('take out of the whey what is drawn, and dilute the rest', () => {
    const state = soured();
    expelSerum(state, parameters, { curdSerumL: 1, wheyL: 0, expelledL: 0.8, drained: false });
    const lactose = state[S.wheyLactoseMM] ?? 0;
    const volume = washWhey(state, { wheyL: 0.8, drawnFraction: 0.5, waterL: 0.4 });
    expect(volume).toBeCloseTo(0.8, 12);
    expect(state[S.wheyLactoseMM]).toBeCloseTo(lactose / 2, 12);
    expect(state[S.wheyStrength]).toBeCloseTo(0.5, 12);
    expect(state[S.wheyPH]).toBe(6.2);
  });

  it('bring back to the curd what turns out never to have left it', () => {
    const state = soured();
    expelSerum(state, parameters, { curdSerumL: 1, wheyL: 0, expelledL: 0.8, drained: false });
    const before = Float64Array.from(state);
    expelSerum(state, parameters, { curdSerumL: 0.2, wheyL: 0.8, expelledL: -0.05, drained: false });
    expect(state[S.curdLactoseMM]).toBeCloseTo(137 * 0.25, 9);
    expect(sum(state, S.curdLactoseMM, S.wheyLactoseMM)).toBeCloseTo(137, 9);
    for (const place of [S.curdPH, S.wheyPH, S.curdStrength]) expect(state[place]).toBe(before[place]);
  });

  it('leave nothing of the whey behind when it is drained; what drained curd loses is gone', () => {
    const state = soured();
    expelSerum(state, parameters, { curdSerumL: 1, wheyL: 0, expelledL: 0.8, drained: false });
    drainWhey(state);
    const lactose = state[S.curdLactoseMM] ?? 0;
    expect(sum(state, S.wheyLactoseMM, S.wheyLactateMM)).toBe(0);
    expelSerum(state, parameters, { curdSerumL: 0.2, wheyL: 0, expelledL: 0.1, drained: true });
    expect(state[S.curdLactoseMM]).toBeCloseTo(lactose / 2, 12);
    expect(state[S.wheyLactoseMM]).toBe(0);
  });

  it('find in a starter the lactose that its lactate was not made of', () => {
    const milk = new Float64Array(ACID_STATE_SIZE);
    startAcid(milk, { cellsPerL: 0, lagWork: 0.3, pH: 6.6, lactoseMM: 137 });
    const whey = Float64Array.from(milk);
    const shared = { percentBulk: 2, milkLactoseMM: 137, lactatePerLactose: 2 };
    addBulkStarter(milk, { ...shared, share: 0.02 / 1.02 });
    addWheyStarter(whey, { ...shared, serumL: 0.02 });
    const inLactose = (state: Float64Array): number =>
      (state[S.curdLactoseMM] ?? 0) + (state[S.curdLactateMM] ?? 0) / 2;
    // Milk with its starter is as strong as milk; with whey there is more serum in each litre of milk.
    expect(inLactose(milk)).toBeCloseTo(137, 9);
    expect(inLactose(whey)).toBeCloseTo(1.02 * 137, 9);
    expect(milk[S.curdLactateMM]).toBeCloseTo((0.02 / 1.02) * 61, 9);
    expect(whey[S.curdPH]).toBe(milk[S.curdPH]);
    expect(whey[S.cellsPerL]).toBe(2e10);
  });

  it('even out between curd and whey without making or losing anything', () => {
    const state = soured();
    expelSerum(state, parameters, { curdSerumL: 1, wheyL: 0, expelledL: 0.8, drained: false });
    washWhey(state, { wheyL: 0.8, drawnFraction: 0.5, waterL: 0.4 });
    const conditions: AcidConditions = {
      temperatureC: 60,
      curdSerumL: 0.2,
      wheyL: 0.8,
      phase: 'curd-in-whey',
      saltFactor: 1,
    };
    const rates = new Float64Array(ACID_STATE_SIZE);
    acidRatesPerHour(state, rates, parameters, conditions);
    expect(rates[S.curdLactoseMM]).toBeLessThan(0);
    expect(sum(rates, S.curdLactoseMM, S.wheyLactoseMM)).toBeCloseTo(0, 12);
    expect(sum(rates, S.curdLactateMM, S.wheyLactateMM)).toBeCloseTo(0, 12);
    expect(0.2 * (rates[S.curdStrength] ?? 1) + 0.8 * (rates[S.wheyStrength] ?? 1)).toBeCloseTo(0, 12);
  });

  it('find the state at an offset in a longer one', () => {
    const long = new Float64Array(ACID_STATE_SIZE + 3).fill(9);
    const short = new Float64Array(ACID_STATE_SIZE);
    const start = { cellsPerL: 1e10, lagWork: 1, pH: 6.5, lactoseMM: 130 };
    const onePercent = { percentBulk: 1, milkLactoseMM: 130, lactatePerLactose: 2 };
    startAcid(long, start, 3);
    startAcid(short, start);
    addBulkStarter(long, { ...onePercent, share: 0.0099 }, 3);
    addBulkStarter(short, { ...onePercent, share: 0.0099 });
    expect([...long.subarray(3)]).toEqual([...short]);
    expect([...long.subarray(0, 3)]).toEqual([9, 9, 9]);
    expect(short[S.curdPH]).toBeCloseTo(6.463, 3);
    expect(short[S.cellsPerL]).toBe(2e10);
    const ratesLong = new Float64Array(long.length);
    const ratesShort = new Float64Array(short.length);
    const conditions: AcidConditions = { temperatureC: 40, curdSerumL: 1, wheyL: 0, phase: 'milk', saltFactor: 1 };
    acidRatesPerHour(long, ratesLong, parameters, conditions, 3);
    acidRatesPerHour(short, ratesShort, parameters, conditions);
    expect([...ratesLong.subarray(3)]).toEqual([...ratesShort]);
  });
});

describe('the error of the acid model', () => {
  it('is five times larger in drained curd, restarts when the curd is read and grows back in three hours', () => {
    expect(modelErrorPH({ phase: 'milk' })).toBe(0.04);
    expect(modelErrorPH({ phase: 'drained' })).toBe(0.2);
    expect(modelErrorPH({ phase: 'drained', minutesSinceCurdReading: 0 })).toBe(0.05);
    expect(modelErrorPH({ phase: 'drained', minutesSinceCurdReading: 90 })).toBeCloseTo(0.125, 12);
    expect(modelErrorPH({ phase: 'drained', minutesSinceCurdReading: 999 })).toBe(0.2);
  });

  it('never lets a band be narrower than 6 minutes, 10 % in milk, 15 % in curd', () => {
    expect(bandFloorMin({ remainingMin: 20, phase: 'milk' })).toBe(6);
    expect(bandFloorMin({ remainingMin: 200, phase: 'curd-in-whey' })).toBeCloseTo(20, 12);
    expect(bandFloorMin({ remainingMin: 200, phase: 'drained' })).toBeCloseTo(30, 12);
    expect(bandFloorMin({ remainingMin: -10, phase: 'drained' })).toBe(6);
  });
});
