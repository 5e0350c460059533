import { describe, expect, it } from 'vitest';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import { asked, isCurrent, NO_FORECAST, replied, startingWith, type Question } from './forecast-state.ts';

const forecastOf = (members: number): Forecast => ({ members }) as Forecast;

const PLAN = {} as Plan;
const ask = (number: number, record: object | null = null): Question => ({ number, plan: PLAN, record });

describe('the forecast on screen', () => {
  it('keeps the old result, marked, while the new one is being computed', () => {
    const first = replied(asked(NO_FORECAST, ask(1)), { number: 1, forecast: forecastOf(200), last: true });
    const changed = asked(first, ask(2));
    expect(changed.forecast?.members).toBe(200);
    expect(isCurrent(first)).toBe(true);
    expect(isCurrent(changed)).toBe(false);
  });

  it('never shows the answer to a question that was changed meanwhile', () => {
    const state = replied(asked(asked(NO_FORECAST, ask(1)), ask(2)), {
      number: 1,
      forecast: forecastOf(200),
      last: true,
    });
    expect(state.forecast).toBeNull();
  });

  it('shows the quick run first and says that a longer one follows', () => {
    const quick = replied(asked(NO_FORECAST, ask(1)), { number: 1, forecast: forecastOf(200), last: false });
    expect([isCurrent(quick), quick.refining]).toEqual([true, true]);
    const long = replied(quick, { number: 1, forecast: forecastOf(1000), last: true });
    expect([long.forecast?.members, long.refining]).toEqual([1000, false]);
  });

  it('that was kept from an earlier visit answers nothing yet, and gives way to the first answer', () => {
    const record = {};
    const opened = startingWith({ shown: forecastOf(1000), plan: PLAN, record });
    expect([opened.of === PLAN, opened.knows === record]).toEqual([true, true]);
    expect([opened.forecast?.members, isCurrent(opened), isCurrent(asked(opened, ask(1)))]).toEqual([
      1000,
      false,
      false,
    ]);
    const answered = replied(asked(opened, ask(1)), { number: 1, forecast: forecastOf(200), last: false });
    expect([answered.forecast?.members, isCurrent(answered)]).toEqual([200, true]);
    expect(startingWith({ shown: null, plan: PLAN, record })).toEqual(NO_FORECAST);
  });

  it('knows of the record it was asked with, until the answer with a newer one is there', () => {
    const [older, newer] = [{}, {}];
    const first = replied(asked(NO_FORECAST, ask(1, older)), { number: 1, forecast: forecastOf(200), last: true });
    const noted = asked(first, ask(2, newer));
    expect([first.knows === older, noted.knows === older]).toEqual([true, true]);
    expect(replied(noted, { number: 2, forecast: forecastOf(200), last: false }).knows).toBe(newer);
  });

  it('keeps the last good forecast when a run fails', () => {
    const good = replied(asked(NO_FORECAST, ask(1)), { number: 1, forecast: forecastOf(200), last: true });
    const failed = replied(asked(good, ask(2)), { number: 2, failed: 'outside what the sums hold for' });
    expect([failed.forecast?.members, failed.failed, isCurrent(failed)]).toEqual([200, 'outside what the sums hold for', false]); // prettier-ignore
  });
});
