import { quantileSorted } from '../src/numbers/stats.ts';

/** How long something takes, warm [ms]. */
export interface Timing {
  readonly p50: number;
  readonly p95: number;
  readonly least: number;
  readonly runs: number;
}

const rounded = (value: number): number => Math.round(value * 10) / 10;

/** Runs it a few times unseen, then as often as asked. */
export function timed(input: { runs: number; warmUp: number; run: () => void }): Timing {
  for (let i = 0; i < input.warmUp; i++) input.run();
  const times = Array.from({ length: input.runs }, () => {
    const started = performance.now();
    input.run();
    return performance.now() - started;
  }).sort((a, b) => a - b);
  return {
    p50: rounded(quantileSorted(times, 0.5)),
    p95: rounded(quantileSorted(times, 0.95)),
    least: rounded(times[0] ?? Number.NaN),
    runs: input.runs,
  };
}
