import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import type { RunElsewhere } from '../src/doors/web/forecasting/together.ts';

/** The machine's second core, running parts of a forecast (`part-worker.ts`) until it is stopped. */
interface SecondCore {
  readonly run: RunElsewhere;
  stop(): void;
}

/** Starts it; one part at a time. */
export function startSecondCore(program: URL): SecondCore {
  const worker = new Worker(program);
  worker.unref();
  return {
    run: async (part) => {
      const answer = once(worker, 'message');
      worker.postMessage(part, [part.rows.buffer]);
      const [memory] = (await answer) as [ArrayBuffer];
      return memory;
    },
    stop: () => void worker.terminate(),
  };
}
