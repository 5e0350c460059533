import { useEffect, useRef, useState } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { History } from '../../../make/history.ts';
import type { Plan } from '../../../make/plan.ts';
import type { ForecastQuestion, ForecastReply } from '../forecasting/forecast-messages.ts';
import { unpacked } from '../forecasting/packed-forecast.ts';

export interface Wanted {
  readonly key: string;
  readonly plan: Plan;
  readonly history: History;
  readonly seed: number;
}

/** Enough for when 1 in 5 come early and 4 in 5 are through. */
const MEMBERS = 200;
/** What was foreseen stays while the page does: a make is run once, however often the day is changed. */
const known = new Map<string, Forecast>();

/** Forecasts of all makes of a day, one after the other in a worker of their own. @param wanted by identity: memoise it */
export function useDayForecasts(wanted: readonly Wanted[]): {
  readonly forecasts: ReadonlyMap<string, Forecast>;
  readonly failed: string | null;
} {
  const [state, setState] = useState<{ readonly forecasts: ReadonlyMap<string, Forecast>; readonly failed: string | null }>(() => ({ forecasts: new Map(known), failed: null })); // prettier-ignore
  const worker = useRef<Worker | null>(null);
  const number = useRef(0);
  useEffect(
    () => () => {
      worker.current?.terminate();
      worker.current = null;
    },
    [],
  );
  useEffect(() => {
    const open = wanted.filter(
      ({ key }, index) => !known.has(key) && wanted.findIndex((one) => one.key === key) === index,
    );
    if (open.length === 0) return;
    worker.current ??= new Worker(new URL('../forecasting/forecast-worker.ts', import.meta.url), { type: 'module' });
    const here = worker.current;
    let next = 0;
    const ask = (): void => {
      const one = open[next];
      if (one === undefined) return;
      number.current += 1;
      here.postMessage({ number: number.current, plan: one.plan, history: one.history, seed: one.seed, members: [MEMBERS] } satisfies ForecastQuestion); // prettier-ignore
    };
    const hear = ({ data }: MessageEvent<ForecastReply>): void => {
      const one = open[next];
      if (one === undefined || data.number !== number.current) return;
      if ('forecast' in data) known.set(one.key, unpacked(data.forecast));
      setState({ forecasts: new Map(known), failed: 'failed' in data ? data.failed : null });
      next += 1;
      ask();
    };
    here.addEventListener('message', hear);
    ask();
    return () => here.removeEventListener('message', hear);
  }, [wanted]);
  return state;
}
