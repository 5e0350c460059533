import { describe, expect, it } from 'vitest';
import { planFor, TO_SETTING, underWay } from '../../tests/makes.ts';
import type { Answers } from '../make/setup.ts';
import { makerLnSdWith, realOverBelieved } from './rennet-belief.ts';
import { simulate } from './simulate.ts';

type Rennet = NonNullable<Answers['rennet']>;

/** A cup test by syringe: the strength is known to a factor 1.5, and that is the clotting model's own error. */
const BY_SYRINGE: Rennet = { strengthImcuPerMl: 150, testedSpanImcuPerMl: { low: 100, high: 225 }, monthsStored: 0 };
/** The same by drops, whose size is not known: a factor 1.77. */
const BY_DROPS: Rennet = { strengthImcuPerMl: 150, testedSpanImcuPerMl: { low: 84.6, high: 266 }, monthsStored: 0 };

const RENNET_IN = underWay({ nowMin: 84, ended: TO_SETTING, running: 'set' });

/** When the curd is ready to cut, the rennet just in [min]. */
function cutMin(rennet: Rennet): { readonly middle: number; readonly band: number } {
  const forecast = simulate({ plan: planFor({ answers: { rennet } }), history: RENNET_IN });
  const set = forecast.steps.find((one) => one.stepId === 'set');
  if (set === undefined) throw new Error('the ball is not set');
  return { middle: set.endMin.p50 - 84, band: set.endMin.p95 - set.endMin.p5 };
}

describe('what is believed of a bottle', () => {
  it('narrows the cutting time: a bottle nobody knows, one by its label, one tested in a cup by syringe', () => {
    const [unknown, label, drops, syringe] = [{}, { strengthImcuPerMl: 150 }, BY_DROPS, BY_SYRINGE].map(
      (rennet) => cutMin(rennet).band,
    );
    expect(label).toBeLessThan(0.6 * (unknown ?? 0));
    expect(drops).toBeLessThan(0.7 * (unknown ?? 0));
    expect(syringe).toBeLessThan(0.4 * (unknown ?? 0));
    expect(syringe).toBeLessThan(0.8 * (label ?? 0));
  });

  it('sets in the middle of the same time as a labelled bottle: the plan measures out for the strength it believes', () => {
    expect(Math.abs(cutMin(BY_SYRINGE).middle - cutMin({ strengthImcuPerMl: 150 }).middle)).toBeLessThan(2);
  });

  it('does not count the kitchen twice: what the cup found of the milk is the same again in the pot', () => {
    const tested = planFor({ answers: { rennet: BY_SYRINGE } }).setup.rennet;
    const labelled = planFor({ answers: { rennet: { strengthImcuPerMl: 150 } } }).setup.rennet;
    expect(makerLnSdWith({ rennet: tested, lnSd: 0.25 })).toBeCloseTo(Math.log(1.2) / 1.645, 9);
    expect(makerLnSdWith({ rennet: labelled, lnSd: 0.25 })).toBe(0.25);
    expect(makerLnSdWith({ rennet: tested, lnSd: 0.05 })).toBe(0.05); // a maker who knows better keeps that
  });

  it('grows less sure as the bottle ages, and never surer than two batches of one kitchen are alike', () => {
    const at = (rennet: Rennet): number => realOverBelieved({ rennet: planFor({ answers: { rennet } }).setup.rennet, z: 1 }); // prettier-ignore
    expect(at({ ...BY_SYRINGE, monthsStored: 24 })).toBeGreaterThan(at(BY_SYRINGE) + 0.1);
    expect(at({ ...BY_SYRINGE, testedSpanImcuPerMl: { low: 149, high: 151 } })).toBeCloseTo(1.2 ** (1 / 1.645), 9);
    expect(realOverBelieved({ rennet: planFor().setup.rennet, z: 0 })).toBe(1);
  });
});

describe('a pot whose loss was learned', () => {
  it('cools by what was learned, not by what pots of its size lose', () => {
    const atCuttingC = (pot: Answers['pot']): number =>
      simulate({ plan: planFor({ answers: { pot } }) }).steps.find((one) => one.stepId === 'set')?.endTemperatureC
        ?.p50 ?? 0;
    const usual = atCuttingC({});
    expect(atCuttingC({ lossWPerK: 6 })).toBeLessThan(usual - 1);
    expect(atCuttingC({ lossWPerK: 0.5 })).toBeGreaterThan(usual + 0.3);
  });
});
