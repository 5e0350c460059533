import type { RunElsewhere } from './together.ts';

interface Waiting {
  readonly take: (memory: ArrayBuffer) => void;
  readonly fail: (error: Error) => void;
}

/**
 * A second core that runs half of a forecast's members, where the device has one and lets a worker start another.
 * @returns null where there is none; a core that is lost fails what it was asked, and whoever asked runs that alone
 */
export function secondCore(): RunElsewhere | null {
  if (navigator.hardwareConcurrency < 2 || typeof Worker === 'undefined') return null;
  const worker = new Worker(new URL('./part-worker.ts', import.meta.url), { type: 'module' });
  // Answers come in the order of the questions.
  const waiting: Waiting[] = [];
  let lost: Error | null = null;
  worker.addEventListener('message', (event: MessageEvent<ArrayBuffer>) => waiting.shift()?.take(event.data));
  worker.addEventListener('error', (event) => {
    lost = new Error(event.message || 'the second core did not start');
    for (const { fail } of waiting.splice(0)) fail(lost);
  });
  return (part) =>
    new Promise((take, fail) => {
      if (lost !== null) {
        fail(lost);
        return;
      }
      waiting.push({ take, fail });
      worker.postMessage(part, [part.rows.buffer]);
    });
}
