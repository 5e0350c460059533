import { describe, expect, it } from 'vitest';
import type { Forecast } from '../../../forecast/forecast.ts';
import { NO_HISTORY, type History } from '../../../make/history.ts';
import type { Plan } from '../../../make/plan.ts';
import type { ForecastQuestion, ForecastAnswer } from '../forecasting/forecast-messages.ts';
import { keyOf, PotForecasts, type Wanted } from './pot-forecasts.ts';

const plan = { make: { id: 'ball' } } as unknown as Plan;
const wanted = (history: History = NO_HISTORY, members = 200): Wanted => {
  const asked = { plan, history, seed: 1, beliefs: null, members };
  return { ...asked, key: keyOf(asked) };
};
const at = (nowMin: number): History => ({ ...NO_HISTORY, nowMin });

/** A worker that answers when told to. */
function bench() {
  const asked: ForecastQuestion[] = [];
  let reply: (reply: ForecastAnswer) => void = () => undefined;
  let closed = 0;
  const forecasts = new PotForecasts((onReply) => {
    reply = onReply;
    return { ask: (question) => asked.push(question), close: () => (closed += 1) };
  });
  const answer = (): void => {
    const number = asked.at(-1)?.number ?? 0;
    reply({ number, forecast: { nowMin: number } as unknown as Forecast, last: true });
  };
  return { forecasts, asked, answer, closedTimes: () => closed };
}

describe('forecasts of several pots', () => {
  it('are run one after the other, the most wanted first', () => {
    const { forecasts, asked, answer } = bench();
    forecasts.subscribe(() => undefined);
    forecasts.want([wanted(at(1)), wanted(at(2))]);
    expect(asked.map(({ history }) => history.nowMin)).toEqual([1]);
    answer();
    expect(asked.map(({ history }) => history.nowMin)).toEqual([1, 2]);
  });

  it('are not run again until the record changes', () => {
    const { forecasts, asked, answer } = bench();
    forecasts.subscribe(() => undefined);
    forecasts.want([wanted(at(1))]);
    answer();
    forecasts.want([wanted({ ...at(1) })]);
    expect(asked).toHaveLength(1);
    forecasts.want([wanted(at(3))]);
    expect(asked).toHaveLength(2);
  });

  it('serve two pots that stand alike with one run', () => {
    const { forecasts, asked, answer } = bench();
    forecasts.subscribe(() => undefined);
    forecasts.want([wanted(), wanted({ ...NO_HISTORY })]);
    answer();
    expect(asked).toHaveLength(1);
    expect(forecasts.snapshot().size).toBe(1);
  });

  it('let the worker go when nobody looks, and keep what it found', () => {
    const { forecasts, asked, answer, closedTimes } = bench();
    const leave = forecasts.subscribe(() => undefined);
    forecasts.want([wanted()]);
    answer();
    leave();
    expect(closedTimes()).toBe(1);
    forecasts.subscribe(() => undefined);
    forecasts.want([wanted()]);
    expect(asked).toHaveLength(1);
  });
});
