import { useEffect, useMemo, useRef, useState } from 'react';
import { NO_HISTORY } from '../../../make/history.ts';
import type { Make } from '../../../make/make.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { ForecastQuestion, ForecastReply } from '../forecasting/forecast-messages.ts';
import type { Draft } from './draft.ts';
import { planFor } from './plan-for.ts';

/** Enough for a whole number of quarter hours. */
const MEMBERS = [60] as const;

/**
 * Likely length of every make that is not on the table, in minutes; asked only once the chosen one has its forecast,
 * so that the choice never delays it.
 */
export function useMakeHours(input: {
  readonly makes: readonly Make[];
  readonly chosen: string;
  readonly draft: Draft;
  readonly units: UnitSystem;
  readonly isIdle: boolean;
}): ReadonlyMap<string, number> {
  const { makes, chosen, draft, units, isIdle } = input;
  const { facts, confirmed } = draft;
  const others = useMemo(
    () =>
      makes
        .filter((make) => make.id !== chosen)
        .map((make) => ({ id: make.id, plan: planFor({ draft: { facts, confirmed }, make, units }).plan })),
    [makes, chosen, facts, confirmed, units],
  );
  const [hours, setHours] = useState<ReadonlyMap<string, number>>(new Map());
  const worker = useRef<Worker | null>(null);
  useEffect(() => () => worker.current?.terminate(), []);
  useEffect(() => {
    if (!isIdle) return;
    const started = new Worker(new URL('../forecasting/forecast-worker.ts', import.meta.url), { type: 'module' });
    worker.current = started;
    let next = 0;
    const ask = (): void => {
      const other = others[next];
      if (other === undefined) return started.terminate();
      next += 1;
      if (other.plan === null) return ask();
      const question: ForecastQuestion = { number: next, plan: other.plan, history: NO_HISTORY, seed: 1, members: MEMBERS }; // prettier-ignore
      started.postMessage(question);
    };
    started.addEventListener('message', (event: MessageEvent<ForecastReply>) => {
      const { data } = event;
      const id = others[data.number - 1]?.id;
      const end = 'forecast' in data ? data.forecast.steps.at(-1)?.endMin.p50 : undefined;
      if (id !== undefined && end !== undefined) setHours((known) => new Map(known).set(id, end));
      ask();
    });
    ask();
    return () => started.terminate();
  }, [isIdle, others]);
  return hours;
}
