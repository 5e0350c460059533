import { useEffect, useReducer, useRef } from 'react';
import type { Answer, Question } from '../../../forecast/question.ts';
import type { Mover } from '../../../forecast/movers.ts';
import type { SolveQuestion, SolveReply } from './solve-messages.ts';

/** What is known of a question; what answers an older one stays until the new answer is there. */
export interface Solving {
  readonly asked: number;
  readonly movers: readonly Mover[];
  readonly free: readonly string[];
  readonly solved: { readonly number: number; readonly question: Question; readonly answer: Answer } | null;
  readonly failed: string | null;
}

export const NOTHING_SOLVED: Solving = { asked: 0, movers: [], free: [], solved: null, failed: null };

type Step = { readonly asked: number } | { readonly reply: SolveReply };

/** A reply to an older question is not shown. */
export function solvingAfter(state: Solving, step: Step): Solving {
  if ('asked' in step) return { ...state, asked: step.asked, failed: null };
  const { reply } = step;
  if (reply.number !== state.asked) return state;
  if ('failed' in reply) return { ...state, failed: reply.failed };
  if ('movers' in reply) return { ...state, movers: reply.movers, free: reply.free };
  return { ...state, solved: reply };
}

/**
 * Answers a question in a worker of its own, which is there only while something is asked.
 * @param question compared by identity: memoise it; null asks nothing
 */
export function useSolve(question: Omit<SolveQuestion, 'number'> | null): Solving {
  const [state, take] = useReducer(solvingAfter, NOTHING_SOLVED);
  const worker = useRef<Worker | null>(null);
  const number = useRef(0);
  const isAsking = question !== null;
  useEffect(() => {
    if (!isAsking) return;
    const started = new Worker(new URL('./solve-worker.ts', import.meta.url), { type: 'module' });
    started.addEventListener('message', (event: MessageEvent<SolveReply>) => take({ reply: event.data }));
    started.addEventListener('error', (event) =>
      take({ reply: { number: number.current, failed: event.message || 'the search did not start' } }),
    );
    worker.current = started;
    return () => {
      started.terminate();
      worker.current = null;
    };
  }, [isAsking]);
  useEffect(() => {
    if (question === null) return;
    number.current += 1;
    take({ asked: number.current });
    worker.current?.postMessage({ ...question, number: number.current } satisfies SolveQuestion);
  }, [question]);
  return state;
}
