import { clockJump, type Clocks } from './clock-jump.ts';

const listeners = new Set<() => void>();
let before: Clocks | null = null;
let jumpedMs: number | null = null;

function become(next: number | null): void {
  if (next === jumpedMs) return;
  jumpedMs = next;
  for (const listener of listeners) listener();
}

/** This page's eye on the device's two clocks; what it saw stays until somebody says what it was. */
export const clockWatch = {
  /** Compares the clocks with the last look. */
  look(): void {
    const now: Clocks = { wallMs: Date.now(), steadyMs: performance.now() };
    const byMs = before === null ? null : clockJump({ before, now });
    before = now;
    if (byMs !== null) become((jumpedMs ?? 0) + byMs);
  },
  read: (): number | null => jumpedMs,
  forget: (): void => become(null),
  subscribe: (listener: () => void): (() => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
};
