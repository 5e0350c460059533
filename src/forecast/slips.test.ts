import { describe, expect, it } from 'vitest';
import { planFor, TO_DRAINED_REST, TO_SETTING, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import type { History } from '../make/history.ts';
import type { Forecast } from './forecast.ts';
import { simulate } from './simulate.ts';

/** Numbers typed wrong: the forecast asks about them and goes its way. */
type Reading = History['readings'][number];
const plan = planFor();
const forecast = (history: History): Forecast => simulate({ plan, history, members: 400 });
const ready = (from: Forecast): Forecast['steps'][number]['endMin'] => {
  const found = from.steps.find((step) => step.stepId === 'rest-drained');
  if (found === undefined) throw new Error('no rest of drained curd');
  return found.endMin;
};
const pH = (value: number, sample: Reading['sample'], elapsedMin: number): Reading => ({ quantity: 'pH', value, sample, elapsedMin }); // prettier-ignore

const setting = (readings: Reading[]): History =>
  underWay({ nowMin: 100, ended: TO_SETTING, running: 'set', readings });
const resting = (readings: Reading[]): History =>
  underWay({ nowMin: 205, ended: TO_WHEY_REST, running: 'rest-in-whey', readings });
const drained = (readings: Reading[]): History =>
  underWay({ nowMin: 292, ended: TO_DRAINED_REST, running: 'rest-drained', readings });

const expectAsked = (slipped: Forecast, values: readonly number[]): void => {
  expect(slipped.surprises.map(({ value }) => value)).toEqual(values);
};

describe('a pH typed wrong', () => {
  it('9 of milk, whey or drained curd is asked about and moves readiness by a few minutes', () => {
    for (const [history, sample, at] of [
      [setting, 'milk', 95],
      [resting, 'whey', 200],
      [drained, 'curd', 285],
    ] as const) {
      // prettier-ignore
      const slipped = forecast(history([pH(9, sample, at)]));
      const without = forecast(history([]));
      expectAsked(slipped, [9]);
      expect(Math.abs(ready(slipped).p50 - ready(without).p50), sample).toBeLessThan(12);
      expect(ready(slipped).p95 - ready(slipped).p5, sample).toBeGreaterThan(0.7 * (Math.min(ready(without).p95, 700) - ready(without).p5)); // prettier-ignore
    }
  });

  it('6.2 of drained curd that was read at 5.4 and is near 5.2 is asked about; the curd is not put back by an hour', () => {
    const read = [pH(5.5, 'curd', 265), pH(5.38, 'curd', 280)];
    const without = forecast(drained(read));
    const slipped = forecast(drained([...read, pH(6.2, 'curd', 290)]));
    expectAsked(slipped, [6.2]);
    expect(Math.abs(ready(slipped).p50 - ready(without).p50)).toBeLessThan(10);
    expect(ready(slipped).p95).toBeLessThan(ready(without).p95 + 30);
  });

  it('corrected by the reading after it leaves the forecast where the right one alone would', () => {
    const right = [pH(6.45, 'whey', 170), pH(6.3, 'whey', 200)];
    const both = forecast(resting([right[0] ?? pH(6.45, 'whey', 170), pH(7.45, 'whey', 185), right[1] ?? pH(6.3, 'whey', 200)])); // prettier-ignore
    expectAsked(both, [7.45]);
    expect(Math.abs(ready(both).p50 - ready(forecast(resting(right))).p50)).toBeLessThan(12);
  });

  it('and a milk read at 73 °C for 37 is asked about and heats no milk', () => {
    const slipped = forecast(setting([{ quantity: 'temperatureC', value: 73, sample: 'milk', elapsedMin: 60 }]));
    expectAsked(slipped, [73]);
  });
});
