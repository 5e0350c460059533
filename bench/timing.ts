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
  });
  return timingOf(times);
}

/** The same of what is there only after a while. */
export async function timedAsync(input: { runs: number; warmUp: number; run: () => Promise<void> }): Promise<Timing> {
  const times: number[] = [];
  for (let i = 0; i < input.warmUp + input.runs; i++) {
    const started = performance.now();
    await input.run();
    times.push(performance.now() - started);
  }
  return timingOf(times.slice(input.warmUp));
}

function timingOf(measured: readonly number[]): Timing {
  const times = [...measured].sort((a, b) => a - b);
  return {
    p50: rounded(quantileSorted(times, 0.5)),
    p95: rounded(quantileSorted(times, 0.95)),
    least: rounded(times[0] ?? Number.NaN),
    runs: times.length,
  };
}
