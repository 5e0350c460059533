/**
 * A fixed piece of work, timed beside everything that the bench times: where it takes longer than it does at its best, something
 * else is using the machine. It looks numbers up and draws straight lines between them, as a step of a member does, so that it
 * is slowed by what slows a member: another program on the core, on the core's other thread or in its memory. A chain of
 * multiplications would not do: it leaves most of a core idle, and hardly notices who else is there.
 */
const TURNS = 150_000; // one to two milliseconds of a slow core
const TABLE = Float64Array.from({ length: 8192 }, (_, i) => Math.sin(i));
const LAST_ROW = TABLE.length - 2;

let leastMs = Number.POSITIVE_INFINITY;
function once(): number {
  const started = performance.now();
  let place = 12_345;
  let sum = 0;
  for (let i = 0; i < TURNS; i++) {
    place = (Math.imul(place, 1_664_525) + 1_013_904_223) | 0;
    const row = (place >>> 16) & LAST_ROW;
    const part = (place & 1023) / 1024;
    const below = TABLE[row] ?? 0;
    const value = below + part * ((TABLE[row + 1] ?? 0) - below);
    sum += value > 0.3 ? value / (1 + value * value) : value * value;
  }
  // Asked for, so that the work cannot be left out.
  return Number.isFinite(sum) ? performance.now() - started : Number.NaN;
}

/** How long the yardstick takes now, the mean of so many [ms]. */
export function yardstickMs(times: number): number {
  let total = 0;
  for (let i = 0; i < times; i++) {
    const ms = once();
    seen(ms);
    total += ms;
  }
  return total / times;
}

/** Takes note of a yardstick timed elsewhere. */
export function seen(ms: number): void {
  leastMs = Math.min(leastMs, ms);
}

/** The least that a yardstick has taken in this program so far, on any core [ms]. */
export const leastYardstickMs = (): number => leastMs;
