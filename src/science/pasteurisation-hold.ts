/**
 * A logged heating judged by the law's own measure: at or above a temperature, without a break, for a time. Always on the
 * coldest reading that is possible: the coldest probe, less the thermometer's error, and nothing credited between readings
 * that lie too far apart.
 */
import type { LegalPair } from './pasteurisation.ts';

export interface HeatReading {
  readonly minute: number;
  readonly temperatureC: number;
  /** Which thermometer, where there are several; each place has its own. */
  readonly probe?: string;
}

/** The readings of one probe in order of time. */
export type ProbeCurve = readonly { readonly minute: number; readonly temperatureC: number }[];

export interface CreditedHold {
  readonly pair: LegalPair;
  /** Longest time that is shown to be at or above the pair's temperature [s]; 0 where no two readings show it. */
  readonly creditedSeconds: number;
  /** Its ends [min]; null where nothing is credited. */
  readonly fromMinute: number | null;
  readonly toMinute: number | null;
  /** Longest gap allowed between two readings [min]. */
  readonly maxGapMinutes: number;
  /** A gap between two hot enough readings was too long, and broke the hold. */
  readonly isBrokenByGap: boolean;
  /** Longest gap inside the credited hold [min]. */
  readonly widestGapMinutes: number;
}

export const THERMOMETER_ERROR_C = { checked: 0.5, unchecked: 1 } as const; // common practice (no source)
const LONGEST_GAP_MINUTES = 5; // common practice (no source)
const GAP_SHARE_OF_HOLD = 1 / 6; // our own choice: a hold is shown by at least seven readings
const SAME_C = 1e-9; // rounding of floating point only
const SECONDS = 60; // in a minute, by definition

/**
 * Longest gap between two readings of a hold that still counts as watched.
 * @param pair the legal pair
 * @returns five minutes, or a sixth of the hold where that is shorter [min]
 * Valid: any pair. Uncertainty: none.
 * @source common practice (no source) and our own choice
 */
export const usualMaxGapMinutes = (pair: LegalPair): number =>
  Math.min(LONGEST_GAP_MINUTES, (GAP_SHARE_OF_HOLD * pair.seconds) / SECONDS);

/**
 * The readings of each probe in order of time, lowered by the thermometer's error; of two at the same minute the colder.
 * @param input.readings any order
 * @param input.thermometerErrorC how much too high the thermometer may read [K], 0 or more
 * @returns one curve a probe
 * Valid: any. Uncertainty: none.
 * @source arithmetic
 */
export function coldestPlausible(input: {
  readonly readings: readonly HeatReading[];
  readonly thermometerErrorC: number;
}): ProbeCurve[] {
  const byProbe = new Map<string, Map<number, number>>();
  for (const { minute, temperatureC, probe = '' } of input.readings) {
    const curve = byProbe.get(probe) ?? new Map<number, number>();
    byProbe.set(probe, curve);
    const plausible = temperatureC - input.thermometerErrorC;
    curve.set(minute, Math.min(plausible, curve.get(minute) ?? plausible));
  }
  return [...byProbe.values()].map((curve) =>
    [...curve].map(([minute, temperatureC]) => ({ minute, temperatureC })).sort((a, b) => a.minute - b.minute),
  );
}

interface Run {
  readonly from: number;
  readonly to: number;
}

/** The times over which one probe shows the temperature, and whether a gap cut one short. */
function runsOf(input: { curve: ProbeCurve; temperatureC: number; maxGapMinutes: number }): {
  runs: Run[];
  isBrokenByGap: boolean;
} {
  const runs: Run[] = [];
  let isBrokenByGap = false;
  let from: number | null = null;
  let last = 0;
  for (const { minute, temperatureC } of input.curve) {
    const isHot = temperatureC >= input.temperatureC - SAME_C;
    const isGap = from !== null && minute - last > input.maxGapMinutes + SAME_C;
    if (from !== null && (isGap || !isHot)) {
      runs.push({ from, to: last });
      isBrokenByGap ||= isGap && isHot;
      from = null;
    }
    if (isHot) {
      from ??= minute;
      last = minute;
    }
  }
  if (from !== null) runs.push({ from, to: last });
  return { runs, isBrokenByGap };
}

const shared = (a: readonly Run[], b: readonly Run[]): Run[] =>
  a.flatMap((one) =>
    b
      .map((other) => ({ from: Math.max(one.from, other.from), to: Math.min(one.to, other.to) }))
      .filter((run) => run.to >= run.from),
  );

/**
 * The longest hold that the readings show for one legal pair.
 *
 * Consecutive readings at or above the pair's temperature, none further from the next than the gap allowed; from the first of
 * them to the last, nothing before or after. With several probes, the time that all of them show.
 *
 * @param input.curves  one a probe, from `coldestPlausible`
 * @param input.pair  temperature [°C] and time [s] of the law
 * @param input.maxGapMinutes  longest gap between readings [min]; left out, as `usualMaxGapMinutes`
 * @returns the credited hold [s], its ends [min], and what gaps did
 * Valid: any readings. Uncertainty: none beyond the thermometer's error, which the curves already hold.
 * @source the law's wording, as `legalPairs`; the gap rule is ours
 */
export function creditedHold(input: {
  readonly curves: readonly ProbeCurve[];
  readonly pair: LegalPair;
  readonly maxGapMinutes?: number;
}): CreditedHold {
  const { curves, pair } = input;
  const maxGapMinutes = input.maxGapMinutes ?? usualMaxGapMinutes(pair);
  const each = curves.map((curve) => runsOf({ curve, temperatureC: pair.temperatureC, maxGapMinutes }));
  const [first, ...others] = each.map(({ runs }) => runs);
  const runs = others.reduce<readonly Run[]>(shared, first ?? []);
  let best: Run | null = null;
  for (const run of runs) if (best === null || run.to - run.from > best.to - best.from) best = run;
  const isShown = best !== null && best.to > best.from;
  return {
    pair,
    creditedSeconds: best === null ? 0 : (best.to - best.from) * SECONDS,
    fromMinute: isShown && best !== null ? best.from : null,
    toMinute: isShown && best !== null ? best.to : null,
    maxGapMinutes,
    isBrokenByGap: each.some(({ isBrokenByGap }) => isBrokenByGap),
    widestGapMinutes: best === null ? 0 : widestGap({ curves, run: best }),
  };
}

function widestGap({ curves, run }: { curves: readonly ProbeCurve[]; run: Run }): number {
  let widest = 0;
  for (const curve of curves) {
    curve.forEach(({ minute }, i) => {
      const before = curve[i - 1]?.minute;
      if (before !== undefined && minute > run.from && before < run.to) widest = Math.max(widest, minute - before);
    });
  }
  return widest;
}

/**
 * The hold by which a heating is judged: of all legal pairs the one it meets, or comes nearest to meeting.
 * @param input.curves  one a probe, from `coldestPlausible`
 * @param input.pairs  from `legalPairs`, longest hold first
 * @param input.maxGapMinutes  longest gap between readings [min]; left out, each pair's usual one
 * @returns the hold and whether it meets its pair; with no hot reading at all, the first pair and nothing credited
 * Valid: any readings. Uncertainty: as `creditedHold`. Never from a lethality sum.
 * @source as `legalPairs`
 */
export function judgedHold(input: {
  readonly curves: readonly ProbeCurve[];
  readonly pairs: readonly LegalPair[];
  readonly maxGapMinutes?: number;
}): { readonly hold: CreditedHold; readonly meetsMinimum: boolean } {
  const holds = input.pairs.map((pair) => creditedHold({ ...input, pair }));
  const share = (hold: CreditedHold): number => hold.creditedSeconds / hold.pair.seconds;
  const met = holds.find((hold) => share(hold) >= 1 - SAME_C);
  const hold = met ?? holds.reduce((best, next) => (share(next) > share(best) ? next : best));
  return { hold, meetsMinimum: met !== undefined };
}
