import { parentPort } from 'node:worker_threads';
import { runPart } from '../src/forecast/parts.ts';
import type { Errand } from './second-core.ts';
import { yardstickMs } from './yardstick.ts';

/** Runs parts of a forecast as they come in, and times yardsticks where it is asked to. */
parentPort?.on('message', (errand: Errand) => {
  if ('yardsticks' in errand) {
    parentPort?.postMessage(yardstickMs(errand.yardsticks));
    return;
  }
  const memory = runPart(errand);
  parentPort?.postMessage(memory, [memory]);
});
