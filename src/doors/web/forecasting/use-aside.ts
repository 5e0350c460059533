import { useEffect, useState } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import type { Plan } from '../../../make/plan.ts';
import type { ForecastQuestion, ForecastReply } from './forecast-messages.ts';
import { unpacked } from './packed-forecast.ts';

/** A forecast wanted beside the main one: another make, or the same with one more answer. */
export interface AsideQuestion {
  readonly key: string;
  readonly plan: Plan;
}

/** Enough for a whole number of quarter hours and for which of two spans is wider. */
export const ASIDE_MEMBERS = 100;

/**
 * Forecasts of several plans, one after the other in a worker of their own, only while `isIdle`: the main forecast is
 * never delayed by them.
 * @param questions compared by identity: memoise them
 */
export function useAside(questions: readonly AsideQuestion[], isIdle: boolean): ReadonlyMap<string, Forecast> {
  const [answers, setAnswers] = useState<ReadonlyMap<string, Forecast>>(new Map());
  useEffect(() => {
    if (!isIdle || questions.length === 0) return;
    const worker = new Worker(new URL('./forecast-worker.ts', import.meta.url), { type: 'module' });
    const found = new Map<string, Forecast>();
    const ask = (index: number): void => {
      const question = questions[index];
      if (question === undefined) {
        setAnswers(found);
        return worker.terminate();
      }
      const asked: ForecastQuestion = { number: index + 1, plan: question.plan, history: NO_HISTORY, seed: 1, members: [ASIDE_MEMBERS] }; // prettier-ignore
      worker.postMessage(asked);
    };
    worker.addEventListener('message', (event: MessageEvent<ForecastReply>) => {
      const { data } = event;
      const question = questions[data.number - 1];
      if (question !== undefined && 'forecast' in data) found.set(question.key, unpacked(data.forecast));
      ask(data.number);
    });
    ask(0);
    return () => worker.terminate();
  }, [questions, isIdle]);
  return answers;
}
