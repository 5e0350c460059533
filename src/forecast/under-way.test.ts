import { describe, expect, it } from 'vitest';
import { planFor, TO_DRAINED_REST, TO_SETTING, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import type { Forecast, StepForecast } from './forecast.ts';
import { simulate } from './simulate.ts';

const step = (forecast: Forecast, id: string): StepForecast => {
  const found = forecast.steps.find((candidate) => candidate.stepId === id);
  if (found === undefined) throw new Error(`no step ${id}`);
  return found;
};
const ready = (forecast: Forecast): number => forecast.outcome.cultureToReadyMin.p50;
const width = (spread: { p5: number; p95: number }): number => spread.p95 - spread.p5;

const base = simulate({ plan: planFor() });

describe('a make under way', () => {
  const setting = underWay({ nowMin: 95, ended: TO_SETTING, running: 'set' });
  const resting = underWay({ nowMin: 200, ended: TO_WHEY_REST, running: 'rest-in-whey' });
  const drained = underWay({ nowMin: 262, ended: TO_DRAINED_REST, running: 'rest-drained' });
  const plan = planFor();
  const forecast = (history: typeof setting): Forecast => simulate({ plan, history });

  it('a flocculation seen narrows the cutting time to a third and sets it to three times the wait', () => {
    const before = step(forecast(setting), 'set').endMin;
    const seen = forecast({
      ...setting,
      readings: [{ quantity: 'flocculationMin', value: 11, sample: 'milk', elapsedMin: 95 }],
    });
    const after = step(seen, 'set').endMin;
    expect(width(after)).toBeLessThan(width(before) / 3);
    expect(after.p50).toBeGreaterThan(84 + 30);
    expect(after.p50).toBeLessThan(84 + 40);
  });

  it('a pH read lower than expected brings readiness forward and narrows it; a higher one puts it off', () => {
    const nothing = forecast(resting);
    const expected = nothing.bands.wheyPH.p50[Math.round(200 / 5)] ?? Number.NaN;
    const at = (pH: number): Forecast =>
      forecast({ ...resting, readings: [{ quantity: 'pH', value: pH, sample: 'whey', elapsedMin: 200 }] });
    const sour = at(expected - 0.15);
    const sweet = at(expected + 0.1);
    expect(ready(sour)).toBeLessThan(ready(nothing));
    expect(ready(sweet)).toBeGreaterThan(ready(nothing));
    const { p25, p75 } = nothing.outcome.cultureToReadyMin;
    expect(sour.outcome.cultureToReadyMin.p75 - sour.outcome.cultureToReadyMin.p25).toBeLessThan(p75 - p25);
  });

  it('a stretch test moves and narrows readiness without any meter', () => {
    const nothing = step(forecast(drained), 'rest-drained').endMin;
    const grade = (name: string): StepForecast['endMin'] =>
      step(
        forecast({ ...drained, judgements: [{ judgement: 'stretch', grade: name, elapsedMin: 261 }] }),
        'rest-drained',
      ).endMin;
    const crumbles = grade('crumbles');
    const rough = grade('pulls-rough');
    expect(rough.p50).toBeLessThan(crumbles.p50);
    expect(rough.p75 - rough.p25).toBeLessThan(nothing.p75 - nothing.p25);
    expect(crumbles.p50).toBeGreaterThan(nothing.p50);
  });

  it('"not sure" leaves the forecast where it was', () => {
    const unsure = forecast({ ...drained, judgements: [{ judgement: 'stretch', grade: 'not-sure', elapsedMin: 261 }] });
    expect(step(unsure, 'rest-drained').endMin.p50).toBeCloseTo(step(forecast(drained), 'rest-drained').endMin.p50, 1);
    expect(unsure.effectiveMembers).toBe(unsure.members);
  });

  it('the weight of the drained curd rescales water, ice, salt and pieces at once', () => {
    const light = forecast({
      ...drained,
      readings: [{ quantity: 'massKg', value: 1.5, sample: 'curd', elapsedMin: 243 }],
    });
    const heavy = forecast({
      ...drained,
      readings: [{ quantity: 'massKg', value: 2.1, sample: 'curd', elapsedMin: 243 }],
    });
    expect(light.outcome.curdKg.p50).toBeLessThan(1.55);
    expect(heavy.outcome.curdKg.p50).toBeGreaterThan(1.85);
    for (const need of ['stretchWaterKg', 'iceKg', 'brineKg', 'brineSaltKg'] as const) {
      expect(light.needs[need]?.p50, need).toBeLessThan(heavy.needs[need]?.p50 ?? 0);
      expect(width(light.needs[need] ?? { p5: 0, p95: 9 }), need).toBeLessThan(
        width(base.needs[need] ?? { p5: 0, p95: 0 }),
      );
    }
    expect(light.outcome.pieces.p50).toBeLessThan(heavy.outcome.pieces.p50);
  });

  it('a slip of the pen (pH 9, or 6.2 for 5.2) is asked about and does not wreck the forecast', () => {
    const nothing = forecast(resting);
    const slip = forecast({ ...resting, readings: [{ quantity: 'pH', value: 9, sample: 'whey', elapsedMin: 200 }] });
    expect(slip.surprises).toHaveLength(1);
    expect(slip.surprises[0]?.value).toBe(9);
    expect(Math.abs(ready(slip) - ready(nothing))).toBeLessThan(10);
    const curd = { ...drained, nowMin: 285 };
    const wrong = forecast({ ...curd, readings: [{ quantity: 'pH', value: 7.2, sample: 'curd', elapsedMin: 284 }] });
    expect(wrong.surprises).toHaveLength(1);
    expect(Math.abs(ready(wrong) - ready(forecast(curd)))).toBeLessThan(20);
  });

  it('an ordinary reading is no surprise', () => {
    const expected = forecast(resting).bands.wheyPH.p50[Math.round(200 / 5)] ?? Number.NaN;
    const plain = forecast({
      ...resting,
      readings: [{ quantity: 'pH', value: expected, sample: 'whey', elapsedMin: 200 }],
    });
    expect(plain.surprises).toEqual([]);
  });

  it('never puts a coming step before now, nor a finished one anywhere but where it was noted', () => {
    const now = forecast(drained);
    for (const entry of now.steps) {
      if (entry.state === 'coming') expect(entry.startMin.p5).toBeGreaterThanOrEqual(262);
      if (entry.state === 'running') expect(entry.endMin.p5).toBeGreaterThanOrEqual(262);
      if (entry.state === 'done') expect(width(entry.endMin)).toBeCloseTo(0, 6);
    }
  });
});
