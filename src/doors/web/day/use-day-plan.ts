import { useEffect, useRef, useState } from 'react';
import type { DayInput, DayPlan } from '../../../forecast/day/day.ts';
import type { DayQuestion, DayReply } from './day-worker.ts';

export interface DayPlanning {
  /** The last plan that was found; it stays while a newer one is looked for. */
  readonly plan: DayPlan | null;
  /** What it was planned for. */
  readonly of: DayInput | null;
  readonly isCurrent: boolean;
  readonly failed: string | null;
}

/** The day planned in a worker of its own, started with the first question and kept warm. @param input by identity */
export function useDayPlan(input: DayInput | null): DayPlanning {
  const worker = useRef<Worker | null>(null);
  const asked = useRef(0);
  const questions = useRef(new Map<number, DayInput>());
  const [state, setState] = useState<{ readonly plan: DayPlan | null; readonly of: DayInput | null; readonly answered: DayInput | null; readonly failed: string | null }>({ plan: null, of: null, answered: null, failed: null }); // prettier-ignore
  useEffect(
    () => () => {
      worker.current?.terminate();
      worker.current = null;
    },
    [],
  );
  useEffect(() => {
    if (input === null) return;
    if (worker.current === null) {
      worker.current = new Worker(new URL('./day-worker.ts', import.meta.url), { type: 'module' });
      worker.current.addEventListener('message', ({ data }: MessageEvent<DayReply>) => {
        const of = questions.current.get(data.number) ?? null;
        if (data.number !== asked.current) return;
        questions.current.clear();
        setState((was) => ('plan' in data ? { plan: data.plan, of, answered: of, failed: null } : { ...was, answered: of, failed: data.failed })); // prettier-ignore
      });
    }
    asked.current += 1;
    questions.current.set(asked.current, input);
    worker.current.postMessage({ number: asked.current, input } satisfies DayQuestion);
  }, [input]);
  return {
    plan: state.plan,
    of: state.of,
    isCurrent: input !== null && state.answered === input,
    failed: state.failed,
  };
}
