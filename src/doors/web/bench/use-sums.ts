import { useEffect, useRef, useState } from 'react';
import type { SumQuestion, SumReply, SumsAsked, SumsReplied } from './sum-messages.ts';

export interface Answered {
  /** Replies to the questions last answered, in their order; the old ones stay until the new ones are there. */
  readonly replies: readonly SumReply[];
  readonly questions: readonly SumQuestion[];
  /** True when they answer what is being asked now. */
  readonly isCurrent: boolean;
}

const NONE: Answered = { replies: [], questions: [], isCurrent: false };

/**
 * Asks sums in a worker and follows what changes.
 * @param questions compared by identity: memoise them; none keeps what is on screen
 */
export function useSums(questions: readonly SumQuestion[]): Answered {
  const [answered, setAnswered] = useState<Omit<Answered, 'isCurrent'>>(NONE);
  const worker = useRef<Worker | null>(null);
  const number = useRef(0);
  const asked = useRef(new Map<number, readonly SumQuestion[]>());
  useEffect(() => {
    const started = new Worker(new URL('./sum-worker.ts', import.meta.url), { type: 'module' });
    started.addEventListener('message', (event: MessageEvent<SumsReplied>) => {
      const { number: its, replies } = event.data;
      const answeredNow = asked.current.get(its);
      if (its !== number.current || answeredNow === undefined) return;
      asked.current.clear();
      setAnswered({ replies, questions: answeredNow });
    });
    started.addEventListener('error', (event) => {
      const failed = event.message || 'the sums did not start';
      setAnswered({ replies: [{ failed }], questions: asked.current.get(number.current) ?? [] });
    });
    worker.current = started;
    return () => started.terminate();
  }, []);
  useEffect(() => {
    if (questions.length === 0) return;
    number.current += 1;
    asked.current.set(number.current, questions);
    const message: SumsAsked = { number: number.current, questions };
    worker.current?.postMessage(message);
  }, [questions]);
  return { ...answered, isCurrent: answered.questions === questions };
}
