/**
 * Hybrid logical clock as text: fifteen digits of milliseconds, a hyphen, five digits of counter. Sorts as text.
 * It never runs backwards, even when a device's wall clock is set back, and never stands before an event already seen.
 *
 * @source KULKARNI, DEMIRBAS, MADAPPA, AVVA & LEONE (2014) Logical Physical Clocks. OPODIS 2014. [from memory, not seen]
 */
const LAST_COUNT = 99_999;
/** The last moment that the text holds; a clock that has come there stays, so that a device can always go on noting. */
const LAST_MS = 999_999_999_999_999;

/** The clock of the next event: after `last`, and at the wall clock where that is further on. */
export function nextClock(input: { readonly last: string | undefined; readonly nowMs: number }): string {
  const now = Math.max(0, Math.floor(input.nowMs));
  if (input.last === undefined) return clockText(now, 0);
  const { ms, count } = clockParts(input.last);
  if (now > ms) return clockText(now, 0);
  if (count < LAST_COUNT) return clockText(ms, count + 1);
  return ms < LAST_MS ? clockText(ms + 1, 0) : input.last;
}

/** The later of a device's clock and one it has just seen from elsewhere. */
export function laterClock(a: string | undefined, b: string | undefined): string | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  return a > b ? a : b;
}

function clockText(ms: number, count: number): string {
  return `${String(ms).padStart(15, '0')}-${String(count).padStart(5, '0')}`;
}

function clockParts(clock: string): { ms: number; count: number } {
  return { ms: Number(clock.slice(0, 15)), count: Number(clock.slice(16)) };
}
