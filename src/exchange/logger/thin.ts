/** How many of a logger's values a make needs: each becomes a thing noted, and the forecast weighs each by itself. */

export interface Timed {
  readonly at: number;
  readonly value: number;
}

/** One value is kept when this much time has gone since the last kept, or when it moved further than the dead band. */
export interface Pace {
  readonly everyMs: number;
  readonly deadBand: number;
}

/**
 * Common practice (no source): a vat of milk does not change by half a degree unseen in two minutes. pH moves by some
 * hundredths in ten, and the error of one electrode is the same in all of its values: more of them would not say more.
 */
export const PACES = {
  temperatureC: { everyMs: 120_000, deadBand: 0.5 },
  pH: { everyMs: 600_000, deadBand: 0.05 },
} as const satisfies Record<string, Pace>;

/** More than this many values of one quantity are noted of no file: the pace is made slower until it fits. Our own choice. */
export const MOST_KEPT = 400;

/** No sensor shows steps wider than this many dead bands: what looks like it is a series that jumps. Our own choice. */
const COARSEST = 4;

/** What is kept of a series, and the pace it was kept at. */
export interface Thinned<T extends Timed> {
  readonly kept: readonly T[];
  readonly left: readonly T[];
  readonly pace: Pace;
}

/**
 * Thins a series that stands in time order: the first and the last value stay, and so does every value at the pace.
 * A step smaller than what the sensor can show is no movement, so the dead band is at least one of its steps.
 */
export function thin<T extends Timed>(series: readonly T[], pace: Pace): Thinned<T> {
  let { everyMs } = pace;
  let deadBand = Math.max(pace.deadBand, Math.min(resolutionOf(series), COARSEST * pace.deadBand));
  for (;;) {
    const thinned = atPace(series, { everyMs, deadBand });
    if (thinned.kept.length <= MOST_KEPT) return thinned;
    everyMs *= 2;
    deadBand *= 2;
  }
}

function atPace<T extends Timed>(series: readonly T[], pace: Pace): Thinned<T> {
  const kept: T[] = [];
  const left: T[] = [];
  for (const [index, one] of series.entries()) {
    const before = kept.at(-1);
    if (before === undefined || isDue({ before, one, pace }) || (index === series.length - 1 && one.at > before.at)) {
      kept.push(one);
    } else left.push(one);
  }
  return { kept, left, pace };
}

/** Whether a value is worth noting after the last one that was. */
export function isDue(input: { readonly before: Timed; readonly one: Timed; readonly pace: Pace }): boolean {
  const { before, one, pace } = input;
  if (one.at <= before.at) return false;
  // A hair's breadth of arithmetic is no movement.
  return one.at - before.at >= pace.everyMs || Math.abs(one.value - before.value) > pace.deadBand + 1e-9;
}

/** The smallest step between values that follow each other; 0 where they never move. */
function resolutionOf(series: readonly Timed[]): number {
  let least = Infinity;
  for (let index = 1; index < series.length; index++) {
    const step = Math.abs((series[index]?.value ?? 0) - (series[index - 1]?.value ?? 0));
    if (step > 1e-9) least = Math.min(least, step);
  }
  return Number.isFinite(least) ? least : 0;
}
