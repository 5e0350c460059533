import { describe, expect, it } from 'vitest';
import { MAKE_IDS, planFor, TO_DRAINED_REST, underWay } from '../../tests/makes.ts';
import type { Forecast, StepForecast } from './forecast.ts';
import { simulate } from './simulate.ts';

const step = (forecast: Forecast, id: string): StepForecast => {
  const found = forecast.steps.find((candidate) => candidate.stepId === id);
  if (found === undefined) throw new Error(`no step ${id}`);
  return found;
};
const ready = (forecast: Forecast): number => forecast.outcome.cultureToReadyMin.p50;

const base = simulate({ plan: planFor() });

describe('a whole make, from milk to brined cheese', () => {
  it('comes out the same for the same seed, and nearly the same for another', () => {
    const again = simulate({ plan: planFor() });
    expect(again).toEqual(base);
    const other = simulate({ plan: planFor(), seed: 2 });
    expect(other).not.toEqual(base);
    expect(Math.abs(ready(other) - ready(base))).toBeLessThan(12);
  });

  it.each(MAKE_IDS)(
    '%s: a full packet is ready to stretch 3.5 to 5.5 hours after the culture (common practice, no source)',
    (id) => {
      for (const pHMeter of [false, true]) {
        const forecast = simulate({ plan: planFor({ id, answers: { instruments: { pHMeter } } }) });
        expect(ready(forecast)).toBeGreaterThan(3.5 * 60);
        expect(ready(forecast)).toBeLessThan(5.5 * 60);
      }
    },
  );

  it.each(MAKE_IDS)('%s: reaches its stretching pH inside the planned rest more often than not', (id) => {
    const forecast = simulate({ plan: planFor({ id }) });
    expect(forecast.outcome.readyWithinPlannedRest).toBeGreaterThan(0.5);
    expect(forecast.outcome.pHAtStretch.p50).toBeGreaterThan(5.0);
    expect(forecast.outcome.pHAtStretch.p50).toBeLessThan(5.35);
  });

  it.each(MAKE_IDS)('%s: lands inside its own aims in the middle', (id) => {
    const plan = planFor({ id });
    const forecast = simulate({ plan });
    expect(forecast.aims).toHaveLength(plan.make.aims.length);
    for (const { aim, spread } of forecast.aims) {
      const aimed = plan.make.aims[aim];
      if (aimed === undefined) throw new Error('an aim without its make');
      expect(spread.p50, aimed.quantity).toBeGreaterThanOrEqual(aimed.low);
      expect(spread.p50, aimed.quantity).toBeLessThanOrEqual(aimed.high);
    }
  });

  it.each(MAKE_IDS)('%s: run without a meter, it ends with no stop and at most three cautions', (id) => {
    const plan = planFor({ id });
    const finished = underWay({ nowMin: 330, ended: [...TO_DRAINED_REST, ['rest-drained', 300], ['stretch', 312]], running: 'form', judgements: [
      { judgement: 'stretch', grade: 'tears-short', elapsedMin: 275 },
      { judgement: 'stretch', grade: 'long-smooth', elapsedMin: 299 },
    ] }); // prettier-ignore
    for (const history of [
      undefined,
      underWay({ nowMin: 280, ended: TO_DRAINED_REST, running: 'rest-drained' }),
      finished,
    ]) {
      const { findings } = simulate({ plan, ...(history === undefined ? {} : { history }) });
      expect(findings.filter((finding) => finding.severity === 'stop')).toEqual([]);
      expect(findings.filter((finding) => finding.severity === 'caution').length).toBeLessThanOrEqual(3);
      expect(findings.length).toBeGreaterThan(0);
    }
  });

  it('is later with half the culture, in a cold room and in a small pot', () => {
    const half = simulate({ plan: planFor({ answers: { culture: { packetFraction: 0.5 } } }) });
    const cold = simulate({ plan: planFor({ answers: { room: { temperatureC: 14 } } }) });
    const small = simulate({ plan: planFor({ milkL: 2 }) });
    expect(ready(half) - ready(base)).toBeGreaterThan(12);
    expect(ready(cold) - ready(base)).toBeGreaterThan(3);
    expect(ready(small) - ready(base)).toBeGreaterThan(3);
  });

  it('doubles the cheese when the milk doubles', () => {
    const double = simulate({ plan: planFor({ milkL: 24 }) });
    expect(double.outcome.cheeseKg.p50 / base.outcome.cheeseKg.p50).toBeCloseTo(2, 1);
  });

  it('turns the burner off before the target and lets the milk coast', () => {
    const [warm] = base.needs.heatOffC;
    expect(warm?.targetC).toBe(37);
    expect(warm?.offC.p50).toBeGreaterThan(33);
    expect(warm?.offC.p50).toBeLessThan(36.8);
  });

  it('fills the pot to 41 to 43 °C when 30 % of ten litres is drawn at 37 and topped up at 60 (common practice, no source)', () => {
    const plan = planFor({ milkL: 10 });
    const forecast = simulate({ plan });
    const wash = step(forecast, 'wash').endTemperatureC;
    expect(wash?.p50).toBeGreaterThanOrEqual(41);
    expect(wash?.p50).toBeLessThanOrEqual(43);
  });

  it('draws bands for acid, warmth, moisture, weight and salt, from the milk to the brine', () => {
    for (const [quantity, band] of Object.entries(base.bands)) {
      expect(band.p50.filter((value) => !Number.isNaN(value)).length, quantity).toBeGreaterThan(8);
    }
    const salt = base.bands.saltPercent.p50.filter((value) => !Number.isNaN(value));
    expect(salt.at(-1)).toBeGreaterThan(0.7);
    expect(salt.at(0)).toBeLessThan(0.7);
  });

  it('keeps every band in order', () => {
    for (const band of Object.values(base.bands)) {
      for (let i = 0; i < band.p50.length; i++) {
        const values = [band.p5[i], band.p25[i], band.p50[i], band.p75[i], band.p95[i]].map(Number);
        if (values.some(Number.isNaN)) continue;
        expect([...values].sort((a, b) => a - b)).toEqual(values);
      }
    }
    expect(base.gridMin.length).toBeGreaterThan(60);
  });
});
