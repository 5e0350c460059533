/** Salt mixed into the curd: how much to weigh out, and how salty the water of the pressed cheese becomes. Mass balances. */
import { InputError, requireWithin, type Validity } from '../numbers/validity.ts';

export interface DrySaltingInput {
  /** Curd as it is salted [kg]. */
  readonly curdKg: number;
  readonly curdMoisturePercent: number;
  readonly targetSaltPercent: number;
  /** Share of the salt that stays in the cheese. */
  readonly retention: number;
  /** Pressed cheese from a kg of salted curd [kg/kg]. */
  readonly pressedYield: number;
}

/** Nair et al. (n.d., South Dakota State University): 0.417 and 0.592 kept from 2.7 %; between them, our own choice. */
export const DRY_SALT_RETENTION = 0.52; // our own choice between the two seen
export const DRY_SALT_PRESSED_YIELD = 0.86; // derived from the same two rows (0.847, 0.873)
const WHEY_WATER_FRACTION = 0.93; // water in the whey that salting drives out; our own choice from sweet whey's 93 %

export const drySaltingValidity: Validity = {
  curdKg: { low: 0.001, high: 1000, unit: 'kg', source: 'our own choice' },
  curdMoisturePercent: {
    low: 30,
    high: 85,
    unit: '% of the curd',
    source: 'our own choice: curds that are dry salted',
  },
  targetSaltPercent: { low: 0, high: 8, unit: '% of the cheese', source: 'cheeses hold 0.7 to 6 % salt' },
  retention: { low: 0.2, high: 1, unit: '-', source: 'Nair et al., South Dakota: 0.417 and 0.592' },
  pressedYield: { low: 0.7, high: 1, unit: 'kg/kg', source: 'Nair et al., South Dakota: 0.847 and 0.873 (derived)' },
};

/**
 * Salt to mix into curd so that the cheese holds so much.
 *
 * salt = target x pressed mass / retention; pressed mass = yield x (curd + salt)
 *
 * @param input.curdKg curd as it is salted [kg], 0.001 to 1000
 * @param input.curdMoisturePercent its water [% of mass], 30 to 85
 * @param input.targetSaltPercent salt wanted in the cheese [% of mass], 0 to 8
 * @param input.retention share of the salt that stays [-], 0.2 to 1
 * @param input.pressedYield cheese from a kg of salted curd [kg/kg], 0.7 to 1; 1 for curd that is not pressed afterwards
 * @returns salt to weigh out [g] and salt in the cheese's moisture [g per 100 g water]
 * Valid: as `drySaltingValidity`.
 * Uncertainty: retention 0.45 to 0.60 for milled acid curd, so 15 % of the salt; least is lost with an hour before the press.
 * Assumes: what leaves is whey of 93 % water with the lost salt in it.
 * @throws InputError outside the range, or when the whey would carry off more water than the curd has
 * @source mass balance; retention and yield: Nair et al., South Dakota State University [seen, abstract]
 */
export function drySalting(input: DrySaltingInput): {
  readonly saltG: number;
  readonly saltInMoisturePercent: number;
  readonly pressedKg: number;
} {
  requireWithin(drySaltingValidity, { ...input });
  const { curdKg, retention, pressedYield } = input;
  const target = input.targetSaltPercent / 100;
  const saltKg = (curdKg * pressedYield * target) / (retention - pressedYield * target);
  const pressedKg = pressedYield * (curdKg + saltKg);
  const lostSaltKg = saltKg * (1 - retention);
  const wheyKg = curdKg + saltKg - pressedKg - lostSaltKg;
  const waterKg = (curdKg * input.curdMoisturePercent) / 100 - WHEY_WATER_FRACTION * Math.max(0, wheyKg);
  if (!(saltKg >= 0 && waterKg > 0)) {
    throw new InputError([
      {
        code: 'contradiction',
        field: 'pressedYield',
        value: pressedYield,
        unit: 'kg/kg',
        expected: 'a cheese that still holds water after the whey has left',
        remedy: 'Check the moisture, the retention and the yield against each other.',
      },
    ]);
  }
  return { saltG: 1000 * saltKg, saltInMoisturePercent: (100 * target * pressedKg) / waterKg, pressedKg };
}

/**
 * Salt in the cheese from a rate that was used: rate x retention / yield.
 * @param input.ratePercent salt mixed in [% of the curd's mass], 0 to 8
 * @returns salt in the cheese [% of mass]
 * Valid: as `drySaltingValidity`. Uncertainty: as `drySalting`.
 * @source mass balance; Nair et al., South Dakota State University [seen, abstract]
 */
export function saltFromRatePercent(input: {
  readonly ratePercent: number;
  readonly retention: number;
  readonly pressedYield: number;
}): number {
  return (input.ratePercent * input.retention) / input.pressedYield;
}

/** In milk 1 % of salt did not slow a mixed farm culture: Medveďová et al. (2019), Fermentation 5:2, abstract seen [g per 100 g water]. */
const UNFELT_SALT_IN_MOISTURE = 1.1; // 1 % of milk of 88 % water
/** Curds salted to so much are those that the factors of `acidification.ts` were set for [g per 100 g water]. */
const FELT_SALT_IN_MOISTURE = 3.5; // as they are salted, curds that end at 4 to 5 (acidification notes 1.5): our own reckoning
const LEAST_SALT_FACTOR = 0.02; // our own choice: brined cheese sours on for weeks, hardly

/**
 * How fast a culture still works in salted curd, as a share of its speed without (kernel, unchecked).
 *
 * 1 up to 1.1 g salt per 100 g water; from there falling by the same share with each gram, through `atUsual` at 3.5 g.
 *
 * @param saltInMoisturePercent  [g per 100 g water], 0 to 12
 * @param atUsual  share left at 3.5 g: 0.25 for lactococci (0.1 to 0.4), 0.1 for thermophiles
 * @returns share of the speed [-], 0.02 to 1
 * Valid: 0 to 12 g per 100 g. Uncertainty: a factor of 2 (our own statement); strains differ more than that.
 * @source our own line through the two points: Medveďová et al. 2019 [seen, abstract] and common practice (no source)
 */
export function saltSlowsKernel(saltInMoisturePercent: number, atUsual: number): number {
  const felt = (saltInMoisturePercent - UNFELT_SALT_IN_MOISTURE) / (FELT_SALT_IN_MOISTURE - UNFELT_SALT_IN_MOISTURE);
  return felt <= 0 ? 1 : Math.max(atUsual ** felt, LEAST_SALT_FACTOR);
}
