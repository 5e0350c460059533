import { parentPort } from 'node:worker_threads';
import { runPart, type Part } from '../src/forecast/parts.ts';

/** Runs parts of a forecast as they come in. */
parentPort?.on('message', (part: Part) => {
  const memory = runPart(part);
  parentPort?.postMessage(memory, [memory]);
});
