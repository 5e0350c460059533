import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rk4Step, rk4Work } from '../numbers/ode.ts';
import { acidStep, acidStepWork, changeToMiddle } from './acidification-step.ts';
import { acidParameters } from './acidification-make.ts';
import { ACID_STATE, ACID_STATE_SIZE, acidRatesPerHour, type AcidConditions } from './acidification.ts';
import { bufferTable } from './buffer.ts';
import { CULTURES } from './culture.ts';
import { milkComposition } from './milk.ts';

const milk = milkComposition({ species: 'cow', fatPercent: 3.6 });
const parameters = acidParameters({ culture: CULTURES.thermophilic, buffer: bufferTable(milk), startPH: 6.65 });

const vats = fc.record({
  phase: fc.constantFrom('milk' as const, 'curd-in-whey' as const, 'drained' as const),
  cellsPerL: fc.double({ min: 1e9, max: 1e12, noNaN: true }),
  curdPH: fc.double({ min: 4.8, max: 6.6, noNaN: true }),
  wheyPH: fc.double({ min: 5.2, max: 6.6, noNaN: true }),
  lactateMM: fc.double({ min: 0, max: 40, noNaN: true }),
  strength: fc.double({ min: 0.6, max: 1, noNaN: true }),
  lnQ: fc.double({ min: -3, max: 35, noNaN: true }),
  startC: fc.double({ min: 20, max: 45, noNaN: true }),
  riseC: fc.double({ min: -3, max: 3, noNaN: true }),
});
type VatDrawn = typeof vats extends fc.Arbitrary<infer T> ? T : never;

function stateOf(vat: VatDrawn): Float64Array {
  const state = new Float64Array(ACID_STATE_SIZE);
  state[ACID_STATE.cellsPerL] = vat.cellsPerL;
  state[ACID_STATE.curdPH] = vat.curdPH;
  state[ACID_STATE.curdLactoseMM] = 60;
  state[ACID_STATE.curdLactateMM] = vat.lactateMM / 2;
  state[ACID_STATE.curdStrength] = vat.strength;
  state[ACID_STATE.wheyPH] = vat.wheyPH;
  state[ACID_STATE.wheyLactoseMM] = 60;
  state[ACID_STATE.wheyLactateMM] = vat.lactateMM / 2;
  state[ACID_STATE.wheyStrength] = vat.strength;
  state[ACID_STATE.wheyCellsPerL] = vat.cellsPerL / 20;
  state[ACID_STATE.lnQ] = vat.lnQ;
  return state;
}

const conditionsOf = ({ phase, startC }: VatDrawn): AcidConditions => ({
  temperatureC: startC,
  curdSerumL: phase === 'milk' ? 1 : 0.4,
  wheyL: phase === 'curd-in-whey' ? 0.5 : 0,
  phase,
  saltFactor: 1,
});

const HOURS = 1 / 12;

describe('a step of the souring', () => {
  it('is the classical Runge-Kutta step over the same rates, in milk, in whey and drained', () => {
    const work = acidStepWork();
    fc.assert(
      fc.property(vats, (vat) => {
        const conditions = conditionsOf(vat);
        const { startC, riseC } = vat;
        const ours = stateOf(vat);
        const plain = stateOf(vat);
        const span = { hours: HOURS, startC, middleC: startC + riseC / 2, endC: startC + riseC };
        acidStep(ours, parameters, conditions, span, work);
        rk4Step({
          state: plain,
          width: HOURS,
          work: rk4Work(ACID_STATE_SIZE),
          rates: (state, derivative, share) =>
            acidRatesPerHour(state, derivative, parameters, { ...conditions, temperatureC: startC + share * riseC }),
        });
        for (const [name, place] of Object.entries(ACID_STATE)) {
          // Beyond thirty the lag is over: whether it still counts on is nobody's business.
          if (name === 'lnQ' && vat.lnQ > 25) continue;
          // Four figures: the waking up is integrated on its own, and so a little better.
          expect((ours[place] ?? 0) / (plain[place] || 1), name).toBeCloseTo(plain[place] === 0 ? 0 : 1, 4);
        }
      }),
      { seed: 20261126, numRuns: 200 },
    );
  });

  it('knows the pH halfway as well as two half steps do', () => {
    const work = acidStepWork();
    fc.assert(
      fc.property(vats, (vat) => {
        const conditions = conditionsOf(vat);
        const { startC } = vat;
        const whole = stateOf(vat);
        const half = stateOf(vat);
        const span = { startC, middleC: startC, endC: startC };
        acidStep(whole, parameters, conditions, { ...span, hours: HOURS }, work);
        const middlePH = vat.curdPH + changeToMiddle(work, ACID_STATE.curdPH, HOURS);
        acidStep(half, parameters, conditions, { ...span, hours: HOURS / 2 }, work);
        expect(Math.abs(middlePH - (half[ACID_STATE.curdPH] ?? 0))).toBeLessThan(2e-3);
      }),
      { seed: 20261126, numRuns: 200 },
    );
  });
});
