import { useCallback, useEffect, useMemo, useReducer, useRef } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { JointBeliefs } from '../../../forecast/uncertain.ts';
import { NO_HISTORY, type History } from '../../../make/history.ts';
import type { Plan } from '../../../make/plan.ts';
import type { ForecastAnswer, ForecastQuestion, ForecastReply, KeepOrder, ToKeep } from './forecast-messages.ts';
import { asked, replied, startingWith, type ForecastState, type Question } from './forecast-state.ts';
import { opened } from './packed-forecast.ts';

/** Quick enough for a note at the vat, then enough members that the bands no longer dance. */
export const LIVE_MEMBERS = [200, 1000] as const;

type Step = { readonly asked: Question } | { readonly reply: ForecastAnswer };
const step = (state: ForecastState, taken: Step): ForecastState =>
  'asked' in taken ? asked(state, taken.asked) : replied(state, taken.reply);

/** What a forecast is asked with beside its plan. */
export interface Asking {
  readonly history?: History;
  /** The record that the history tells of, by identity; told back with the answer. */
  readonly record?: object | null;
  readonly seed?: number;
  readonly members?: readonly number[];
  /** What pots beside this one have told, by identity; null where there are none. */
  readonly beliefs?: JointBeliefs | null;
  /** Shown until the first answer is there, as an older one; null where nothing was kept. */
  readonly shown?: Forecast | null;
}

export interface Forecasting extends ForecastState {
  /** Has the worker keep the whole answer on screen; does nothing and says false where another question has been asked since. */
  readonly keep: (what: ToKeep) => boolean;
}

/**
 * The forecast of a plan, computed in a worker and kept up with what changes. The old one stays until the new one is
 * there (`isCurrent` tells which it is); no plan asks nothing.
 * @param plan compared by identity: memoise it
 * @param asked.history what happened so far, also by identity
 * @param asked.members run sizes in order, by identity
 */
export function useForecast(plan: Plan | null, asked: Asking = {}): Forecasting {
  const { history = NO_HISTORY, record = null, seed = 1, members = LIVE_MEMBERS, beliefs = null, shown = null } = asked;
  const [state, take] = useReducer(step, { shown, plan, record }, startingWith);
  const worker = useRef<Worker | null>(null);
  const number = useRef(0);
  useEffect(() => {
    const started = new Worker(new URL('./forecast-worker.ts', import.meta.url), { type: 'module' });
    started.addEventListener('message', (event: MessageEvent<ForecastReply>) => take({ reply: opened(event.data) }));
    started.addEventListener('error', (event) =>
      take({ reply: { number: number.current, failed: event.message || 'the forecast did not start' } }),
    );
    worker.current = started;
    return () => started.terminate();
  }, []);
  useEffect(() => {
    if (plan === null) return;
    number.current += 1;
    take({ asked: { number: number.current, plan, record } });
    const question: ForecastQuestion = {
      number: number.current,
      plan,
      history,
      seed,
      members,
      ...(beliefs === null ? {} : { beliefs }),
    };
    worker.current?.postMessage(question);
  }, [plan, history, record, seed, members, beliefs]);
  const { answers } = state;
  const keep = useCallback(
    (what: ToKeep): boolean => {
      if (answers !== number.current) return false;
      worker.current?.postMessage({ number: answers, keep: what } satisfies KeepOrder);
      return worker.current !== null;
    },
    [answers],
  );
  return useMemo(() => ({ ...state, keep }), [state, keep]);
}
