/**
 * How soon hot water burns skin. Times are of adults with the skin in the water; they are worded "as little as" and
 * shown rounded down. Above 60 °C nothing was measured that could be extended, so only upper bounds are given, in steps.
 */
import { InputError } from '../numbers/validity.ts';

type Row = readonly [waterC: number, seconds: number];

/** Full thickness: Moritz & Henriques (1947) Am. J. Pathol. 23:695, as printed on a plumbing-safety page [seen at second hand]. */
const DEEP_BURN: readonly Row[] = [
  [45, 3 * 3600],
  [47, 45 * 60],
  [48, 20 * 60],
  [49, 10 * 60],
  [51, 4.2 * 60],
  [55, 30],
  [60, 5],
];

/** Second degree (blisters): the same table. */
const BLISTER: readonly Row[] = [
  [45, 2 * 3600],
  [47, 20 * 60],
  [48, 15 * 60],
  [49, 8 * 60],
  [51, 2 * 60],
  [55, 17],
  [60, 3],
];

/** Above 60 °C: upper bounds that hold up to a temperature; a 1997 standards discussion [seen, author not given]. */
const UPPER_BOUNDS: readonly Row[] = [
  [63, 3],
  [66, 1.5],
  [68, 1],
];

/** Above the last step the time is "under" this. */
export const SCALD_LEAST_SECONDS = 1;

/** Share of the adult's time that is shown for children, older people and thin or wet-gloved skin: common practice (no source). */
export const CHILD_SCALD_FRACTION = 0.25; // common practice (no source)

const LOWEST_C = 45; // lowest row of the table

/** Kernel: log10 of the time on a straight line between rows; null below the table; steps above it. */
function secondsAt(rows: readonly Row[], waterC: number): number | null {
  if (waterC < LOWEST_C) return null;
  let [belowC, belowSeconds] = rows[0] ?? [LOWEST_C, 0];
  for (const [aboveC, aboveSeconds] of rows) {
    if (waterC <= aboveC) {
      if (aboveC === belowC) return aboveSeconds;
      const share = (waterC - belowC) / (aboveC - belowC);
      return 10 ** (Math.log10(belowSeconds) * (1 - share) + Math.log10(aboveSeconds) * share);
    }
    [belowC, belowSeconds] = [aboveC, aboveSeconds];
  }
  for (const [upToC, seconds] of UPPER_BOUNDS) if (waterC <= upToC) return Math.min(seconds, belowSeconds);
  return SCALD_LEAST_SECONDS;
}

export interface ScaldTimes {
  /** Time in the water to blisters [s]; null below 45 °C. */
  readonly secondsToBlister: number | null;
  /** Time in the water to a burn through the skin [s]; null below 45 °C. */
  readonly secondsToDeepBurn: number | null;
  /** True above 60 °C, where the times are upper bounds and the real ones shorter. */
  readonly isUpperBound: boolean;
  /** The adult's blister time divided by four [s]. */
  readonly secondsToBlisterForChildren: number | null;
}

/**
 * How soon water of a temperature blisters and burns an adult's skin.
 *
 * log10(time) on straight lines between the table's rows up to 60 °C; above, upper bounds: up to 63 °C 3 s, up to 66 °C
 * 1.5 s, up to 68 °C 1 s, hotter "under 1 s". Never extrapolated. Children: a quarter of the time.
 *
 * @param input.waterC temperature of the water [°C], 0 to 100
 * @returns seconds to blisters and to a deep burn [s], null below 45 °C (discomfort; limit the time)
 * Valid: adult skin wholly in the water; wet gloves hold the heat against the skin.
 * Uncertainty: a second list is up to four times shorter at 49 to 57 °C; say "as little as" and round down.
 * @throws InputError for a temperature that water in a pot does not have
 * @source Moritz & Henriques (1947) Am. J. Pathol. 23:695 [seen at second hand]; above 60 °C a standards discussion, 1997 [seen]
 */
export function scaldTimes(input: { readonly waterC: number }): ScaldTimes {
  const { waterC } = input;
  if (!(waterC >= 0 && waterC <= 105)) {
    throw new InputError([
      {
        code: Number.isFinite(waterC) ? 'impossible' : 'not-a-number',
        field: 'waterC',
        value: waterC,
        unit: '°C',
        expected: '0 to 105 °C',
        remedy: 'Give the temperature of the water in degrees Celsius.',
      },
    ]);
  }
  const secondsToBlister = secondsAt(BLISTER, waterC);
  return {
    secondsToBlister,
    secondsToDeepBurn: secondsAt(DEEP_BURN, waterC),
    isUpperBound: waterC > 60,
    secondsToBlisterForChildren: secondsToBlister === null ? null : CHILD_SCALD_FRACTION * secondsToBlister,
  };
}
