/** The thread beside the server's own: a question comes in, its answer or its problems go back. */
import { parentPort } from 'node:worker_threads';
import { InputError, type Problem } from '../../../numbers/validity.ts';
import { solved, type Asked } from './solved.ts';

/** What goes back. An InputError itself would arrive as a plain error. */
export type Told = { readonly document: object } | { readonly problems: readonly Problem[] };

parentPort?.on('message', (asked: Asked) => parentPort?.postMessage(told(asked)));

function told(asked: Asked): Told {
  try {
    return { document: solved(asked) };
  } catch (error) {
    if (error instanceof InputError) return { problems: error.problems };
    throw error;
  }
}
