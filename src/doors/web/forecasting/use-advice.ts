import { useEffect, useRef, useState } from 'react';
import type { Advice, AdviseInput, Outside } from '../../../forecast/advise.ts';

export type AdviceReply =
  { readonly number: number; readonly answer: Advice | Outside } | { readonly number: number; readonly failed: string };

/** Choices on screen, and whether they answer what is being asked. */
export interface AdviceState {
  readonly answer: Advice | Outside | null;
  /** The question it answers. */
  readonly of: AdviseInput | null;
  /** False while a newer question is being worked out. */
  readonly isCurrent: boolean;
  readonly failed: string | null;
}

/**
 * Choices from here, worked out in a worker of their own that is started with the first question and kept warm.
 * @param input by identity; null asks nothing
 */
export function useAdvice(input: AdviseInput | null): AdviceState {
  const [state, setState] = useState<{ readonly of: AdviseInput; readonly reply: AdviceReply } | null>(null);
  const worker = useRef<Worker | null>(null);
  const asked = useRef<{ readonly number: number; readonly input: AdviseInput } | null>(null);
  useEffect(
    () => () => {
      worker.current?.terminate();
      worker.current = null;
    },
    [],
  );
  useEffect(() => {
    if (input === null) return;
    worker.current ??= started((reply) => {
      if (asked.current?.number === reply.number) setState({ of: asked.current.input, reply });
    });
    const question = { number: (asked.current?.number ?? 0) + 1, input };
    asked.current = question;
    worker.current.postMessage(question);
  }, [input]);
  const reply = state?.reply ?? null;
  return {
    answer: reply !== null && 'answer' in reply ? reply.answer : null,
    of: state?.of ?? null,
    isCurrent: state !== null && state.of === input,
    failed: reply !== null && 'failed' in reply ? reply.failed : null,
  };
}

function started(onReply: (reply: AdviceReply) => void): Worker {
  const worker = new Worker(new URL('./advice-worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', (event: MessageEvent<AdviceReply>) => onReply(event.data));
  return worker;
}
