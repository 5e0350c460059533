/**
 * Hybrid logical clock as text: fifteen digits of milliseconds, a hyphen, five digits of counter. Sorts as text.
 * It never runs backwards, even when a device's wall clock is set back, and never stands before an event already seen, except one
 * whose clock somebody made up.
 *
 * @source KULKARNI, DEMIRBAS, MADAPPA, AVVA & LEONE (2014) Logical Physical Clocks. OPODIS 2014. [from memory, not seen]
 */
const LAST_COUNT = 99_999;

/** No tablet's calendar is wrong by so much, and from there a clock can still count for longer than anybody will (our own choice). */
const FURTHEST_AHEAD_MS = 100 * 365.25 * 86_400_000;

/**
 * Whether a clock is so far ahead that it was made up. Whoever went on from it would soon be at the last moment that
 * the text holds, where nothing stands after anything any more.
 * @param input.nowMs  the clock of the machine that asks, milliseconds UTC
 */
export function isMadeUp(input: { readonly clock: string; readonly nowMs: number }): boolean {
  return clockParts(input.clock).ms > input.nowMs + FURTHEST_AHEAD_MS;
}

/** The clock of the next event: after `last`, unless that one is made up, and at the wall clock where that is further on. */
export function nextClock(input: { readonly last: string | undefined; readonly nowMs: number }): string {
  const now = Math.max(0, Math.floor(input.nowMs));
  if (input.last === undefined || isMadeUp({ clock: input.last, nowMs: now })) return clockText(now, 0);
  const { ms, count } = clockParts(input.last);
  if (now > ms) return clockText(now, 0);
  return count < LAST_COUNT ? clockText(ms, count + 1) : clockText(ms + 1, 0);
}

/**
 * A device's clock after it has seen what others noted: not before any of theirs, those left out that somebody made up.
 * @param input.nowMs  the device's wall clock, milliseconds UTC
 */
export function clockAfter(input: {
  readonly own: string | undefined;
  readonly seen: readonly { readonly clock: string }[];
  readonly nowMs: number;
}): string | undefined {
  const { own, seen, nowMs } = input;
  let latest = own;
  for (const { clock } of seen) {
    if ((latest === undefined || clock > latest) && !isMadeUp({ clock, nowMs })) latest = clock;
  }
  return latest;
}

function clockText(ms: number, count: number): string {
  return `${String(ms).padStart(15, '0')}-${String(count).padStart(5, '0')}`;
}

function clockParts(clock: string): { ms: number; count: number } {
  return { ms: Number(clock.slice(0, 15)), count: Number(clock.slice(16)) };
}
