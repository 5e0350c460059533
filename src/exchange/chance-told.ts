/** When something is, and how likely, in words. */
import type { Say } from './words.ts';
import type { Writer } from './written.ts';

/** With whose words, figures and clock it is told. */
export interface AdviceTelling {
  readonly say: Say;
  readonly write: Writer;
  /** The batch's minute zero, milliseconds UTC. */
  readonly zeroAt: number;
  /** Now, minutes since zero. */
  readonly nowMin: number;
}

const MINUTE_MS = 60_000;
const DAY_MIN = 1440;
const instant = (minute: number, { zeroAt }: AdviceTelling): number => zeroAt + minute * MINUTE_MS;
/** A clock time of the make. */
export const clock = (minute: number, telling: AdviceTelling): string => telling.write.clock(instant(minute, telling));

/** A clock time, with its day where that is not the day of `from` (now where left out). */
export function whenText(minute: number, telling: AdviceTelling, from: number = telling.nowMin): string {
  const { say, write } = telling;
  const day = (at: number): string => write.day(instant(at, telling));
  const at = clock(minute, telling);
  if (day(minute) === day(from)) return at;
  if (day(minute) === day(telling.nowMin + DAY_MIN)) return say('advice:done.tomorrow', { at });
  return say('advice:done.onDay', { at, day: day(minute) });
}

/** "about 7 in 10"; at the ends in twentieths. */
export function chanceText(chance: number, say: Say): string {
  if (chance < 0.05) return say('advice:chance.hardly');
  if (chance > 0.95) return say('advice:chance.nearly');
  return say('advice:chance.inTen', { count: Math.min(Math.max(Math.round(chance * 10), 1), 9) });
}
