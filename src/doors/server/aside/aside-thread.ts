/** The thread beside the server's own: work comes in, its answer or its problems go back. */
import { parentPort } from 'node:worker_threads';
import { InputError, type Problem } from '../../../numbers/validity.ts';
import { workedOut, type Done, type Given } from './worked-out.ts';

/** What goes back. An InputError itself would arrive as a plain error. */
export type Told = { readonly done: Done } | { readonly problems: readonly Problem[] };

parentPort?.on('message', (given: Given) => parentPort?.postMessage(told(given)));

function told(given: Given): Told {
  try {
    return { done: workedOut(given) };
  } catch (error) {
    if (error instanceof InputError) return { problems: error.problems };
    throw error;
  }
}
