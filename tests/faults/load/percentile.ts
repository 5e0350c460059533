/** Times of one kind of thing, in milliseconds. */
export interface Times {
  readonly count: number;
  readonly p50: number;
  readonly p95: number;
  readonly longest: number;
}

/** The middle, the 95th of a hundred and the longest of some times; all 0 where there are none. */
export function timesOf(all: readonly number[]): Times {
  const sorted = [...all].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.max(0, Math.ceil(sorted.length * share) - 1)] ?? 0;
  return { count: sorted.length, p50: tenths(at(0.5)), p95: tenths(at(0.95)), longest: tenths(sorted.at(-1) ?? 0) };
}

export const tenths = (value: number): number => Math.round(value * 10) / 10;
