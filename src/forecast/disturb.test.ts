import { describe, expect, it } from 'vitest';
import { planFor, TO_DRAINED_REST, TO_SETTING, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import type { Disturbance } from '../make/disturbance.ts';
import type { History } from '../make/history.ts';
import type { Forecast } from './forecast.ts';
import { simulate } from './simulate.ts';

const plan = planFor();
const run = (history: History): Forecast => simulate({ plan, history, members: 120, seed: 2 });
const told = (history: History, ...disturbances: Disturbance[]): Forecast => run({ ...history, disturbances });
const ready = (forecast: Forecast): number => forecast.outcome.cultureToReadyMin.p50;
const temperatureAt = (forecast: Forecast, minute: number): number =>
  forecast.bands.temperatureC.p50[Math.round(minute / 5)] ?? Number.NaN;
const cutAt = (forecast: Forecast): number => forecast.steps.find((step) => step.stepId === 'set')?.endMin.p50 ?? NaN;

const ripening = underWay({ nowMin: 60, ended: TO_SETTING.slice(0, 2), running: 'ripen' });
const setting = underWay({ nowMin: 90, ended: TO_SETTING, running: 'set' });
const stirring = underWay({ nowMin: 150, ended: TO_WHEY_REST.slice(0, 8), running: 'stir' });
const resting = underWay({ nowMin: 200, ended: TO_WHEY_REST, running: 'rest-in-whey' });
const drained = underWay({ nowMin: 260, ended: TO_DRAINED_REST, running: 'rest-drained' });

describe('what moves the vat beside the plan', () => {
  it('says nothing new where nothing happened', () => {
    expect(run({ ...stirring, disturbances: [] })).toEqual(run(stirring));
  });

  it('heat that kills puts the stretch off or ends it; heat that the culture likes does not', () => {
    const plain = ready(run(resting));
    const at = (temperatureC: number, minutes: number): Forecast =>
      told(resting, { kind: 'temperature', elapsedMin: 200 - minutes, minutes, temperatureC });
    expect(ready(at(44, 10))).toBeLessThan(plain + 10);
    expect(ready(at(59, 20))).toBeGreaterThan(plain + 10);
    expect(at(59, 20).aims[0]?.probability).toBeLessThan(run(resting).aims[0]?.probability ?? 0);
  });

  it('a hot spell dries the curd, a cold one leaves it wetter', () => {
    const soon = (forecast: Forecast): number => forecast.bands.curdMoisturePercent.p50[165 / 5] ?? Number.NaN;
    const moisture = (temperatureC: number): number =>
      soon(told(stirring, { kind: 'temperature', elapsedMin: 140, minutes: 10, temperatureC }));
    const plain = soon(run(stirring));
    expect(moisture(48)).toBeLessThan(plain - 2);
    expect(moisture(25)).toBeGreaterThan(plain + 2);
  });

  it('stands at the told temperature meanwhile, and cools by itself afterwards', () => {
    const hot = told(stirring, { kind: 'temperature', elapsedMin: 140, minutes: 10, temperatureC: 48 });
    expect(temperatureAt(hot, 145)).toBeCloseTo(48, 0);
    expect(temperatureAt(hot, 200)).toBeLessThan(48);
    const brought = told(stirring, { kind: 'temperature', elapsedMin: 150, minutes: 0, temperatureC: 38 });
    expect(temperatureAt(brought, 155)).toBeCloseTo(38, 0);
  });

  it('a power cut cools the vat and puts the make off; when it is back the vat is warmed again', () => {
    const plain = run(ripening);
    const cut = told(ripening, { kind: 'noHeat', elapsedMin: 40, minutes: 120 });
    expect(temperatureAt(cut, 75)).toBeLessThan(temperatureAt(plain, 75));
    const long = told(drained, { kind: 'noHeat', elapsedMin: 245, minutes: 120 });
    expect(ready(long)).toBeGreaterThan(ready(run(drained)));
  });

  it('heat spoils rennet before the milk has set: it is cut later', () => {
    const plain = cutAt(run(setting));
    const at = (temperatureC: number): number =>
      cutAt(told(setting, { kind: 'temperature', elapsedMin: 85, minutes: 5, temperatureC }));
    expect(at(54)).toBeGreaterThan(plain);
  });

  it('a curd cut again to half the size gives off its whey sooner', () => {
    const at = (forecast: Forecast): number => forecast.bands.curdMoisturePercent.p50[165 / 5] ?? Number.NaN;
    expect(at(told(stirring, { kind: 'cut', elapsedMin: 150, cubeMm: 6 }))).toBeLessThan(at(run(stirring)));
  });
});

describe('what went in', () => {
  const added = (
    ingredient: 'culture' | 'calcium' | 'rennet',
    fractionOfPlan: number,
    elapsedMin: number,
  ): History['additions'][number] => ({ ingredient, fractionOfPlan, elapsedMin });
  const half = added('culture', 0.5, 34);

  it('half the culture is ready later, and the other half made up for soon is nearly as if nothing had been', () => {
    const plain = ready(run(ripening));
    const halved = ready(run({ ...ripening, additions: [half] }));
    const madeUp = ready(run({ ...ripening, additions: [half, added('culture', 0.5, 60)] }));
    expect(halved).toBeGreaterThan(plain + 10);
    expect(madeUp).toBeLessThan(halved);
    expect(madeUp).toBeGreaterThan(plain);
  });

  it('no calcium sets later, and calcium given later still helps', () => {
    const none = cutAt(run({ ...setting, additions: [added('calcium', 0, 82)] }));
    expect(none).toBeGreaterThan(cutAt(run(setting)));
    expect(cutAt(run({ ...setting, additions: [added('calcium', 0, 82), added('calcium', 1, 90)] }))).toBeLessThan(
      none,
    );
  });

  it('twice the rennet is cut in about half the time, and half again in more', () => {
    const plain = cutAt(run(setting)) - 84;
    const doubled = cutAt(run({ ...setting, additions: [added('rennet', 2, 84)] })) - 84;
    expect(doubled).toBeLessThan(0.75 * plain);
    const more = cutAt(run({ ...setting, additions: [added('rennet', 1, 84), added('rennet', 0.5, 90)] })) - 84;
    expect(more).toBeLessThan(plain);
    expect(more).toBeGreaterThan(doubled);
  });

  it('milk that got no culture never sours', () => {
    const none = run({ ...ripening, additions: [added('culture', 0, 34)] });
    expect(none.aims[0]?.probability).toBe(0);
    expect(none.outcome.readyWithinPlannedRest).toBe(0);
  });
});
