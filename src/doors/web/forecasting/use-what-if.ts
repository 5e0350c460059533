import { useEffect, useRef, useState } from 'react';
import type { Settings, WhatIf } from '../../../forecast/what-if.ts';
import type { WhatIfBase, WhatIfQuestion, WhatIfReply } from './what-if-messages.ts';

/** Old and new bands on screen, and whether they answer the settings as they stand. */
export interface WhatIfState {
  readonly answer: WhatIf | null;
  readonly isCurrent: boolean;
  /** True while all members still follow the few. */
  readonly isRefining: boolean;
  readonly failed: string | null;
}

/**
 * What would come of other settings, worked out in a worker of its own that keeps the make's members while the sheet is open.
 * @param base by identity: memoise it
 * @param settings by identity
 */
export function useWhatIf(base: WhatIfBase, settings: Settings): WhatIfState {
  const [state, setState] = useState<{ readonly of: Settings; readonly reply: WhatIfReply } | null>(null);
  const [shown, setShown] = useState<WhatIf | null>(null);
  const worker = useRef<Worker | null>(null);
  const asked = useRef<{ readonly number: number; readonly base: WhatIfBase | null; readonly settings: Settings }>({ number: 0, base: null, settings }); // prettier-ignore
  useEffect(() => {
    const started = new Worker(new URL('./what-if-worker.ts', import.meta.url), { type: 'module' });
    started.addEventListener('message', ({ data }: MessageEvent<WhatIfReply>) => {
      if (data.number !== asked.current.number) return;
      setState({ of: asked.current.settings, reply: data });
      if ('answer' in data) setShown(data.answer);
    });
    worker.current = started;
    return () => {
      started.terminate();
      worker.current = null;
      asked.current = { ...asked.current, base: null };
    };
  }, []);
  useEffect(() => {
    const number = asked.current.number + 1;
    const question: WhatIfQuestion = { number, base: asked.current.base === base ? null : base, settings };
    asked.current = { number, base, settings };
    worker.current?.postMessage(question);
  }, [base, settings]);
  const reply = state?.reply ?? null;
  return {
    answer: shown,
    isCurrent: state !== null && state.of === settings,
    isRefining: reply !== null && 'answer' in reply && !reply.last,
    failed: reply !== null && 'failed' in reply ? reply.failed : null,
  };
}
