import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import type { Part } from '../src/forecast/parts.ts';
import type { RunElsewhere } from '../src/doors/web/forecasting/together.ts';
import { seen, yardstickMs } from './yardstick.ts';

/** What the second core is sent: a part of a forecast to run, or yardsticks to time. */
export type Errand = Part | { readonly yardsticks: number };

/** The machine's second core, running parts of a forecast (`part-worker.ts`) until it is stopped. */
interface SecondCore {
  readonly run: RunElsewhere;
  /** How long a yardstick takes on both cores at once, the slower of the two [ms]. */
  readonly yardstick: (times: number) => Promise<number>;
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
    yardstick: async (times) => {
      const answer = once(worker, 'message');
      worker.postMessage({ yardsticks: times } satisfies Errand);
      const hereMs = yardstickMs(times);
      const [thereMs] = (await answer) as [number];
      seen(thereMs);
      return Math.max(hereMs, thereMs);
    },
    stop: () => void worker.terminate(),
  };
}
