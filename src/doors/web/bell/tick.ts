const listeners = new Set<() => void>();
let worker: Worker | null = null;

const tell = (): void => {
  for (const listener of listeners) listener();
};

/** Calls back about once a second, also while the page is hidden, wherever the browser lets a worker run. */
export function onTick(listener: () => void): () => void {
  listeners.add(listener);
  if (worker === null) {
    worker = new Worker(new URL('tick-worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', tell);
  }
  return () => {
    listeners.delete(listener);
    if (listeners.size > 0) return;
    worker?.terminate();
    worker = null;
  };
}
