import { useEffect, useRef, useState } from 'react';
import type { ExplainAsked } from '../../../exchange/explain-record.ts';
import type { Explanation } from '../../../forecast/explain.ts';

export interface ExplainQuestion {
  readonly number: number;
  readonly asked: ExplainAsked;
}

export type ExplainReply =
  { readonly number: number; readonly explanation: Explanation } | { readonly number: number; readonly failed: string };

export interface ExplainState {
  /** The last one found; it stays while a newer record is weighed. */
  readonly explanation: Explanation | null;
  readonly isCurrent: boolean;
  readonly failed: string | null;
}

/**
 * Causes weighed in a worker of their own, which is started with the first question and kept warm.
 * @param asked by identity; null asks nothing
 */
export function useExplain(asked: ExplainAsked | null): ExplainState {
  const [state, setState] = useState<{ readonly of: ExplainAsked; readonly reply: ExplainReply } | null>(null);
  const worker = useRef<Worker | null>(null);
  const open = useRef<ExplainQuestion | null>(null);
  useEffect(
    () => () => {
      worker.current?.terminate();
      worker.current = null;
    },
    [],
  );
  useEffect(() => {
    if (asked === null) return;
    worker.current ??= started((reply) => {
      if (open.current?.number === reply.number) setState({ of: open.current.asked, reply });
    });
    open.current = { number: (open.current?.number ?? 0) + 1, asked };
    worker.current.postMessage(open.current);
  }, [asked]);
  const reply = state?.reply ?? null;
  return {
    explanation: reply !== null && 'explanation' in reply ? reply.explanation : null,
    isCurrent: state !== null && state.of === asked,
    failed: reply !== null && 'failed' in reply ? reply.failed : null,
  };
}

function started(onReply: (reply: ExplainReply) => void): Worker {
  const worker = new Worker(new URL('./explain-worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', (event: MessageEvent<ExplainReply>) => onReply(event.data));
  return worker;
}
