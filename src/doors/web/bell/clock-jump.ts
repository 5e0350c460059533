/** The wall clock and the monotonic clock of the device, milliseconds, read at the same moment. */
export interface Clocks {
  readonly wallMs: number;
  readonly steadyMs: number;
}

/** A jump from here on is shown and asked about (our own choice). */
export const LEAST_JUMP_MS = 30_000;

/**
 * By how much the wall clock has gone otherwise than the monotonic one between two looks; null below thirty seconds.
 * A sleeping device may stop the monotonic clock, so a jump forward is either sleep or a clock that was set: only the
 * maker knows.
 * @returns milliseconds, negative for a clock set back
 */
export function clockJump(input: { readonly before: Clocks; readonly now: Clocks }): number | null {
  const { before, now } = input;
  const byMs = now.wallMs - before.wallMs - (now.steadyMs - before.steadyMs);
  return Math.abs(byMs) > LEAST_JUMP_MS ? Math.round(byMs) : null;
}
