import { describe, expect, it } from 'vitest';
import { planFor, TO_SETTING, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import { assumedSteps } from './assumed.ts';
import type { Forecast, StepForecast } from './forecast.ts';
import { simulate } from './simulate.ts';

const plan = planFor();
const setting = underWay({ nowMin: 90, ended: TO_SETTING, running: 'set' });
const at = (nowMin: number, assumedFromMin?: number): Forecast =>
  simulate({ plan, members: 120, history: { ...setting, nowMin, ...(assumedFromMin === undefined ? {} : { assumedFromMin }) } }); // prettier-ignore
const step = (forecast: Forecast, id: string): StepForecast => {
  const found = forecast.steps.find((one) => one.stepId === id);
  if (found === undefined) throw new Error(`no step ${id}`);
  return found;
};
/** Of the middle half: one make in twenty never comes to stretch, and has no minute. */
const width = (spread: { p25: number; p75: number }): number => spread.p75 - spread.p25;

describe('a make of which nothing was noted since the rennet, looked at two hours on', () => {
  const waiting = at(210);
  const kept = at(210, 90);

  it('is taken to have been cut, healed and stirred as planned, each at its likely minute', () => {
    const assumed = assumedSteps({ forecast: kept });
    expect(assumed.map((one) => one.stepId).slice(0, 5)).toEqual(['set', 'cut', 'heal', 'stir', 'settle']);
    expect(assumed.at(-1)?.endMin).toBeNull();
    for (const [index, one] of assumed.entries()) {
      expect(one.startMin).toBeLessThanOrEqual(one.endMin ?? 210);
      expect(one.startMin).toBeGreaterThanOrEqual(assumed[index - 1]?.endMin ?? 0);
      if (one.endMin !== null) expect(one.endMin).toBeLessThanOrEqual(210);
    }
  });

  it('stays useful: the stretch is where the forecast at the rennet had it, not two hours later', () => {
    const then = step(at(90), 'rest-drained').endMin;
    const now = step(kept, 'rest-drained').endMin;
    expect(Math.abs(now.p50 - then.p50)).toBeLessThan(5);
    expect(width(now)).toBeGreaterThan(0.9 * width(then));
    expect(step(waiting, 'rest-drained').endMin.p50).toBeGreaterThan(now.p50 + 30);
  });

  it('without the silence is still setting, for as long as nobody has cut it', () => {
    expect(step(waiting, 'set').endMin.p5).toBeGreaterThanOrEqual(210);
    expect(step(waiting, 'set').state).toBe('running');
    expect(step(waiting, 'cut').startMin.p5).toBeGreaterThanOrEqual(210);
    expect(assumedSteps({ forecast: waiting }).map((one) => one.stepId)).toEqual([]);
  });

  it('asks nothing where the plan itself still has the same step running', () => {
    expect(assumedSteps({ forecast: at(95, 90) })).toEqual([]);
  });
});

describe('a step that lasts far beyond its time', () => {
  it('goes on, and the vat is kept warm, until somebody ends it', () => {
    const stirring = underWay({ nowMin: 245, ended: TO_WHEY_REST.slice(0, 8), running: 'stir' });
    const forecast = simulate({ plan, members: 60, history: stirring });
    expect(step(forecast, 'stir').endMin.p50).toBeGreaterThanOrEqual(245);
    expect(forecast.bands.temperatureC.p50[245 / 5]).toBeGreaterThan(36);
  });
});
