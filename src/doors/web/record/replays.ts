import { useEffect, useRef, useState } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { History } from '../../../make/history.ts';
import type { Plan } from '../../../make/plan.ts';

/** A forecast to run again: what was known then, under a key that changes with it. */
export interface Asked {
  readonly key: string;
  readonly history: History;
  /** The plan as it stood then, where it was another one. */
  readonly plan?: Plan;
}

export interface ReplayQuestion {
  readonly number: number;
  readonly plan: Plan;
  readonly seed: number;
  readonly members: number;
  readonly asked: readonly Asked[];
}

export type ReplayReply =
  | { readonly number: number; readonly key: string; readonly forecast: Forecast }
  | { readonly number: number; readonly key: string; readonly failed: string };

/** Enough members for a band beside a reading; the running forecast has more. */
const MEMBERS = 200;

/**
 * Forecasts as they would have been at earlier moments of a batch, by key; those still being computed are missing.
 * @param plan by identity; null asks nothing
 * @param asked by identity; a key seen before is not run again
 */
export function useReplays(plan: Plan | null, seed: number, asked: readonly Asked[]): ReadonlyMap<string, Forecast> {
  const [answers, setAnswers] = useState<ReadonlyMap<string, Forecast>>(new Map());
  const worker = useRef<Worker | null>(null);
  const number = useRef(0);
  const known = useRef(new Set<string>());
  useEffect(() => {
    const started = new Worker(new URL('./replay-worker.ts', import.meta.url), { type: 'module' });
    started.addEventListener('message', (event: MessageEvent<ReplayReply>) => {
      const reply = event.data;
      if (!('forecast' in reply)) return;
      known.current.add(reply.key);
      setAnswers((before) => new Map(before).set(reply.key, reply.forecast));
    });
    worker.current = started;
    return () => {
      started.terminate();
      worker.current = null;
    };
  }, []);
  useEffect(() => {
    if (plan === null) return;
    const open = asked.filter((one) => !known.current.has(one.key));
    if (open.length === 0) return;
    number.current += 1;
    worker.current?.postMessage({
      number: number.current,
      plan,
      seed,
      members: MEMBERS,
      asked: open,
    } satisfies ReplayQuestion);
  }, [plan, seed, asked]);
  return answers;
}
