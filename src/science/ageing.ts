/**
 * How much a cheese loses by drying as it ages: water driven out by what the air is short of, through a rind that lets less
 * through the longer it dries, and through a coat if it has one. Left out: what moulds breathe away, turning, shrinking
 * (surface and air stay as they were), the fall of the cheese's own water activity.
 */
import { InputError, requireWithin, type Validity } from '../numbers/validity.ts';
import { type Body, bodyAreaM2, requireBody } from './body.ts';
import { saturationPressurePa } from './properties.ts';

export const RINDS = ['bare', 'mould', 'washed', 'waxed', 'vacuum'] as const;
export type Rind = (typeof RINDS)[number];

/** How well a rind and a coat let water through. */
export interface RindHabit {
  /** Of the cheese itself after one week [kg/(m2 s Pa)]; it falls with the square root of time. */
  readonly atOneWeek: number;
  /** Of wax or film, the same all along [kg/(m2 s Pa)]; Infinity where there is none. */
  readonly coat: number;
  /** The 90 % band before any weighing: this factor either way. */
  readonly bandFactor: number;
  readonly source: string;
}

const BARE_AT_ONE_WEEK = 2.6e-9; // from the water diffusivity of Mahón at 12 °C, 7.8e-12 m2/s (seen at second hand): our own fit to its slab; inside the 2 to 5e-9 that has no source
const NO_COAT = Number.POSITIVE_INFINITY;

export const RIND_HABITS: Readonly<Record<Rind, RindHabit>> = {
  bare: {
    atOneWeek: BARE_AT_ONE_WEEK,
    coat: NO_COAT,
    bandFactor: 1.5, // our own choice: ±50 % before two weighings
    source: 'water diffusivity of Mahón at 12 °C, 7.8e-12 m2/s, seen at second hand; our own fit',
  },
  // 5 to 15e-9 at the high humidity of their rooms, common practice (no source); the middle on a log scale
  mould: { atOneWeek: 8.7e-9, coat: NO_COAT, bandFactor: 1.73, source: 'common practice (no source)' },
  washed: { atOneWeek: 8.7e-9, coat: NO_COAT, bandFactor: 1.73, source: 'common practice (no source)' },
  // 1 to 3e-10, common practice (no source); the middle on a log scale
  waxed: { atOneWeek: BARE_AT_ONE_WEEK, coat: 1.7e-10, bandFactor: 1.73, source: 'common practice (no source)' },
  // next to nothing: our own choice of a figure that a kitchen scale does not see
  vacuum: { atOneWeek: BARE_AT_ONE_WEEK, coat: 1e-11, bandFactor: 3, source: 'common practice (no source)' },
};

export const SURFACE_WATER_ACTIVITY = 0.97; // common practice (no source); brined hard cheese goes down to 0.92
const STILL_AIR_W_PER_M2K = 2.5; // still cellar 2 to 3 W/(m2 K), from memory
const AIR_SPECIFIC_HEAT = 1006; // J/(kg K), from memory
const LEWIS = 0.857; // heat over vapour diffusivity in air, from memory
const WATER_KG_PER_MOL = 0.018015; // standard tables
const GAS_CONSTANT = 8.314; // J/(mol K)
const WEEK_S = 7 * 86_400; // s, by definition
const DAY_S = 86_400; // s, by definition
const NEXT_TO_SEALED = 1e-5; // rounding of floating point only
const DRIEST_PERCENT = 15; // our own bound: the water that even a grating cheese keeps

export interface AgeingInput {
  readonly massKg: number;
  readonly body: Body;
  readonly moisturePercent: number;
  readonly temperatureC: number;
  readonly relativeHumidityPercent: number;
  readonly rind: Rind;
  /** Of the surface [-]; 0.97 where left out. */
  readonly waterActivity?: number;
  /** How many times as leaky as the rind's usual figure; 1 where left out. */
  readonly leakFactor?: number;
  /** A film over the rind [kg/(m2 s Pa)], from `filmPermeance`. */
  readonly film?: number;
}

export const ageingValidity: Validity = {
  massKg: { low: 0.02, high: 100, unit: 'kg', source: 'small goat cheese to the largest wheels (our own bounds)' },
  moisturePercent: { low: 25, high: 85, unit: '%', source: 'very hard to fresh cheese' },
  temperatureC: { low: 1, high: 25, unit: '°C', source: 'cold store to ripening room (our own bounds)' },
  relativeHumidityPercent: { low: 40, high: 100, unit: '%', source: 'a fridge to a wet cellar (our own bounds)' },
  days: { low: 0, high: 1500, unit: 'd', source: 'four years (our own bound)' },
  waterActivity: { low: 0.8, high: 1, unit: '-', source: 'very dry cheese to water' },
};

/**
 * How fast still or moving air carries vapour away: k = h 0.018015 / (rho cp Le^(2/3) R theta).
 * @param input.heatWPerM2K  heat transfer of the air [W/(m2 K)], 1 to 10
 * @param input.temperatureC  [°C], 1 to 25
 * @returns [kg/(m2 s Pa)], about 6.8e-9 for each W/(m2 K)
 * Valid: humid air at one atmosphere. Uncertainty: 5 % of its own; the heat transfer is known to 50 %.
 * @source analogy of heat and mass transfer (Chilton and Colburn 1934, from memory)
 */
export function airVapourTransfer(input: { readonly heatWPerM2K: number; readonly temperatureC: number }): number {
  const kelvin = input.temperatureC + 273.15;
  const densityKgPerM3 = 353 / kelvin; // ideal gas at one atmosphere
  const speed = input.heatWPerM2K / (densityKgPerM3 * AIR_SPECIFIC_HEAT * LEWIS ** (2 / 3));
  return (speed * WATER_KG_PER_MOL) / (GAS_CONSTANT * kelvin);
}

/**
 * A film's own figure from the rate on its data sheet, which means nothing without the air it was measured in.
 * @param input.gPerM2PerDay  water through it [g/(m2 d)]
 * @param input.measuredAtC  [°C]
 * @param input.humidityDifferencePercent  between its two sides, as percent relative humidity at that temperature
 * @returns [kg/(m2 s Pa)]
 * Valid: any film whose rate follows the vapour pressure. Uncertainty: films let more through the warmer they are, a
 * factor of two between 10 and 38 °C.
 * @source arithmetic; the warning: a rate at 38 °C taken for one in use comes out 4 to 30 times wrong
 */
export function filmPermeance(input: {
  readonly gPerM2PerDay: number;
  readonly measuredAtC: number;
  readonly humidityDifferencePercent: number;
}): number {
  const drivePa = (input.humidityDifferencePercent / 100) * saturationPressurePa(input.measuredAtC);
  return input.gPerM2PerDay / 1000 / DAY_S / drivePa;
}

/** What the air is short of at the surface [Pa]: (a_w - RH) p_s(T), never below 0 (kernel). */
export function dryingDrivePa(
  input: Pick<AgeingInput, 'temperatureC' | 'relativeHumidityPercent' | 'waterActivity'>,
): number {
  const short = (input.waterActivity ?? SURFACE_WATER_ACTIVITY) - input.relativeHumidityPercent / 100;
  return Math.max(0, short) * saturationPressurePa(input.temperatureC);
}

/**
 * Integral of k_eff over time (kernel, unchecked): k_eff = 1 / (1 / min(k_air, K / sqrt t) + 1 / coat), in closed form.
 * @returns [kg/(m2 Pa)]
 */
export function openExposure(input: {
  readonly seconds: number;
  readonly air: number;
  readonly fall: number;
  readonly coat: number;
}): number {
  const { seconds, air, fall, coat } = input;
  const through = (k: number): number => (coat === Number.POSITIVE_INFINITY ? k : 1 / (1 / k + 1 / coat));
  const turn = Math.min(seconds, (fall / air) ** 2);
  const early = through(air) * turn;
  if (seconds <= turn) return early;
  // Integral of K / sqrt t, or of K coat / (coat sqrt t + K), from the turn on.
  const antiderivative = (t: number): number => {
    const root = Math.sqrt(t);
    if (coat === Number.POSITIVE_INFINITY) return 2 * fall * root;
    const tightness = (coat * root) / fall;
    // Where the coat alone decides, the difference below would be lost in rounding: its first two terms instead.
    if (tightness < NEXT_TO_SEALED) return coat * t * (1 - (2 / 3) * tightness);
    return 2 * fall * (root - (fall / coat) * Math.log1p(tightness));
  };
  return early + antiderivative(seconds) - antiderivative(turn);
}

/** Kernel of `agedMassKg`: no checks. */
export function agedMassKernel(input: AgeingInput & { readonly days: number }): number {
  const { massKg, moisturePercent, temperatureC, rind, leakFactor = 1 } = input;
  const habit = RIND_HABITS[rind];
  const isCoated = habit.coat !== NO_COAT;
  const rindCoat = isCoated ? habit.coat * leakFactor : NO_COAT;
  const coat = input.film === undefined ? rindCoat : 1 / (1 / rindCoat + 1 / input.film);
  const exposure = openExposure({
    seconds: input.days * DAY_S,
    air: airVapourTransfer({ heatWPerM2K: STILL_AIR_W_PER_M2K, temperatureC }),
    fall: habit.atOneWeek * Math.sqrt(WEEK_S) * (isCoated ? 1 : leakFactor),
    coat,
  });
  const lostKg = bodyAreaM2(input.body) * dryingDrivePa(input) * exposure;
  const solidsKg = massKg * (1 - moisturePercent / 100);
  const driestKg = Math.min(massKg, solidsKg / (1 - DRIEST_PERCENT / 100));
  return Math.max(driestKg, massKg - lostKg);
}

/**
 * What a cheese weighs after so many days.
 *
 * dm/dt = -A k_eff (a_w - RH) p_s(T), k_eff = min(k_air, K / sqrt t), in series with wax or film. K from the rind's figure at one
 * week; learn it from two weighings (`ageing-learn.ts`).
 *
 * @param input.massKg  at the start [kg], 0.02 to 100
 * @param input.body  shape and sizes [mm]
 * @param input.moisturePercent  at the start [%], 25 to 85
 * @param input.temperatureC  of the room [°C], 1 to 25
 * @param input.relativeHumidityPercent  of the room [%], 40 to 100
 * @param input.rind  bare, mould, washed, waxed or vacuum
 * @param input.waterActivity  of the surface [-], 0.8 to 1; 0.97 where left out
 * @param input.days  [d], 0 to 1500
 * @returns mass [kg], at most that of the start
 * Valid: as `ageingValidity`, steady room. Uncertainty: the rind's band factor, ±50 % of the loss and more, before two
 * weighings; ±10 % after. In long ageing the surface dries and the loss comes out too high: +45 % in a year.
 * @throws InputError outside the range or for sizes that do not fit the shape
 * @source form: diffusion-limited loss of Cheddar (1954, abstract seen) and air-side analogy; K as `RIND_HABITS` states
 */
export function agedMassKg(input: AgeingInput & { readonly days: number }): number {
  requireBody(input.body);
  const { massKg, moisturePercent, temperatureC, relativeHumidityPercent, days, waterActivity } = input;
  requireWithin(ageingValidity, {
    massKg,
    moisturePercent,
    temperatureC,
    relativeHumidityPercent,
    days,
    waterActivity,
  });
  if (input.leakFactor !== undefined && !(input.leakFactor > 0)) {
    throw new InputError([
      {
        code: 'impossible',
        field: 'leakFactor',
        value: input.leakFactor,
        expected: 'more than 0',
        remedy: 'Leave it out, or learn it from weighings.',
      },
    ]);
  }
  return agedMassKernel(input);
}
