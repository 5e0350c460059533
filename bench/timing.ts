import { quantileSorted } from '../src/numbers/stats.ts';
import { leastYardstickMs, yardstickMs } from './yardstick.ts';

/** How long something takes, warm [ms]. */
export interface Timing {
  readonly p50: number;
  readonly p95: number;
  readonly least: number;
  readonly runs: number;
  /** The p50 of those runs alone that nothing else on the machine disturbed; null where they are too few to say. */
  readonly undisturbed: number | null;
  readonly undisturbedRuns: number;
  /** Beside these runs: in the middle of them, and the least in the whole program, by which disturbance is told. */
  readonly yardstick: { readonly p50: number; readonly least: number };
}

/** A run, and the slower of the two yardsticks before and after it [ms]. */
interface Run {
  readonly ms: number;
  readonly besideMs: number;
}

/** What was measured, to be judged once all the yardsticks of the program have been seen. */
export type Series = readonly Run[];

/** Longer than the least by more than this and something else was there: twice what the least ones differ by. Our own choice. */
const DISTURBED_ABOVE = 1.15;
/** Fewer undisturbed runs have no middle worth telling. Our own choice. */
const FEWEST_UNDISTURBED = 5;
/** How long a yardstick lasts, before and after a run, as a share of it. Our own choice. */
const YARDSTICK_SHARE = 0.05;

/** Runs it a few times unseen, then as often as asked, a yardstick before and after each. */
export function timed(input: { runs: number; warmUp: number; run: () => void }): Series {
  const series: Run[] = [];
  let yardsticks = 1;
  let beforeMs = yardstickMs(yardsticks);
  for (let i = 0; i < input.warmUp + input.runs; i++) {
    const started = performance.now();
    input.run();
    const ms = performance.now() - started;
    const afterMs = yardstickMs(yardsticks);
    if (i >= input.warmUp) series.push({ ms, besideMs: Math.max(beforeMs, afterMs) });
    else yardsticks = yardsticksFor(ms);
    beforeMs = afterMs;
  }
  return series;
}

/** The same of what is there only after a while, and is measured by yardsticks of its own: on all the cores that it uses. */
export async function timedAsync(input: {
  runs: number;
  warmUp: number;
  run: () => Promise<void>;
  yardstick: (times: number) => Promise<number>;
}): Promise<Series> {
  const series: Run[] = [];
  let yardsticks = 1;
  let beforeMs = await input.yardstick(yardsticks);
  for (let i = 0; i < input.warmUp + input.runs; i++) {
    const started = performance.now();
    await input.run();
    const ms = performance.now() - started;
    const afterMs = await input.yardstick(yardsticks);
    if (i >= input.warmUp) series.push({ ms, besideMs: Math.max(beforeMs, afterMs) });
    else yardsticks = yardsticksFor(ms);
    beforeMs = afterMs;
  }
  return series;
}

const yardsticksFor = (ms: number): number => Math.max(1, Math.round((YARDSTICK_SHARE * ms) / leastYardstickMs()));

const rounded = (value: number): number => Math.round(value * 10) / 10;
const hundredths = (value: number): number => Math.round(value * 100) / 100;

/** What a series says, by the least yardstick seen so far: ask when all is measured. */
export function timingOf(series: Series): Timing {
  const inOrder = (runs: Series): number[] => runs.map(({ ms }) => ms).sort((a, b) => a - b);
  const times = inOrder(series);
  const besides = series.map(({ besideMs }) => besideMs).sort((a, b) => a - b);
  const calm = inOrder(series.filter(({ besideMs }) => besideMs <= DISTURBED_ABOVE * leastYardstickMs()));
  return {
    p50: rounded(quantileSorted(times, 0.5)),
    p95: rounded(quantileSorted(times, 0.95)),
    least: rounded(times[0] ?? Number.NaN),
    runs: times.length,
    undisturbed: calm.length < FEWEST_UNDISTURBED ? null : rounded(quantileSorted(calm, 0.5)),
    undisturbedRuns: calm.length,
    yardstick: { p50: hundredths(quantileSorted(besides, 0.5)), least: hundredths(leastYardstickMs()) },
  };
}
