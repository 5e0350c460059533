/**
 * Cooling a shaped cheese in cold water: how long to a core temperature, what core, mean and surface are after a time,
 * and how much ice it takes. The inside conducts so slowly that the bath hardly matters; size does, squared.
 * Left out: baths that warm up (keep ice in them), air cooling with drying.
 */
import { firstReached } from '../numbers/roots.ts';
import { InputError, outside, requireWithin, type Problem, type Validity } from '../numbers/validity.ts';
import { bodyFractions, bodyTerms, bodyVolumeM3, type Body, type BodyTerms } from './body.ts';
import { cheeseThermal, CURD_MOISTURE_PERCENT, type CheeseThermal } from './cheese-thermal.ts';
import { waterDensityKgPerM3, WATER_SPECIFIC_HEAT_KJ_PER_KG_K } from './properties.ts';

export interface CoolingInput {
  readonly body: Body;
  readonly fromC: number;
  readonly bathC: number;
  /** Surface transfer; 250 still, 600 stirred where not given. */
  readonly hWPerM2K?: number;
  readonly isStirred?: boolean;
  readonly moisturePercent?: number;
  readonly fatPercent?: number;
  /** Instead of moisture and fat, where the properties are known. */
  readonly thermal?: CheeseThermal;
}

/** Temperatures in the cheese [°C]; the surface at the middle of the nearest face. */
export interface CheeseTemperatures {
  readonly coreC: number;
  readonly meanC: number;
  readonly surfaceC: number;
}

export const STILL_BATH_W_PER_M2_K = 250; // our own mean over a cooling of `stillWaterTransfer` (800 hot to 155 cold)
export const STIRRED_BATH_W_PER_M2_K = 600; // our own estimate: saves about a tenth of the time

const HERE = 'our own limits: cheese in a water or brine bath';

export const coolingValidity: Validity = {
  fromC: { low: 0, high: 95, unit: '°C', source: HERE },
  bathC: { low: -15, high: 60, unit: '°C', source: HERE },
  hWPerM2K: { low: 1, high: 10_000, unit: 'W/(m2 K)', source: HERE },
  minutes: { low: 0, high: 100_000, unit: 'min', source: HERE },
};

interface Prepared {
  readonly terms: BodyTerms;
  readonly thermal: CheeseThermal;
}

function prepare(input: CoolingInput): Prepared {
  const { fromC, bathC, hWPerM2K } = input;
  requireWithin(coolingValidity, { fromC, bathC, hWPerM2K });
  const thermal =
    input.thermal ??
    cheeseThermal({
      moisturePercent: input.moisturePercent ?? CURD_MOISTURE_PERCENT,
      ...(input.fatPercent === undefined ? {} : { fatPercent: input.fatPercent }),
      temperatureC: Math.max((fromC + bathC) / 2, 0),
    });
  const h = hWPerM2K ?? (input.isStirred === true ? STIRRED_BATH_W_PER_M2_K : STILL_BATH_W_PER_M2_K);
  return { terms: bodyTerms({ body: input.body, surfacePerM: h / thermal.conductivityWPerMK }), thermal };
}

function temperaturesAt(input: CoolingInput, prepared: Prepared, seconds: number): CheeseTemperatures {
  const left = bodyFractions({
    prepared: prepared.terms,
    diffusivityM2PerS: prepared.thermal.diffusivityM2PerS,
    seconds,
  });
  const from = (share: number): number => input.bathC + share * (input.fromC - input.bathC);
  return { coreC: from(left.centre), meanC: from(left.mean), surfaceC: from(left.surface) };
}

/**
 * Core, mean and surface of a cheese after some minutes in a bath.
 *
 * theta = (T - T_bath) / (T_0 - T_bath) from the series of `series.ts`, Fo = alpha t / L^2, Bi = h L / k.
 *
 * @param input.body  shape and sizes [mm]
 * @param input.fromC  uniform at the start [°C], 0 to 95
 * @param input.bathC  constant [°C], -15 to 60
 * @param input.minutes  in the bath [min], 0 to 100000
 * @param input.hWPerM2K  surface transfer [W/(m2 K)], 1 to 10000; 250 still, 600 stirred where not given
 * @param input.moisturePercent  of the cheese [%]; 50 where not given
 * @param input.fatPercent  of the cheese [%]; half of the solids where not given
 * @returns three temperatures [°C]
 * Valid: as `coolingValidity`. Uncertainty: times within 15 % (12 % of it conductivity).
 * @throws InputError naming the field, its value and the range
 * @source Çengel, Heat Transfer, Table 4-2 (seen); properties as `cheeseThermal`
 */
export function cheeseAfter(input: CoolingInput & { readonly minutes: number }): CheeseTemperatures {
  requireWithin(coolingValidity, { minutes: input.minutes });
  return cheeseOverTime(input)(input.minutes);
}

/** Kernel of `cheeseAfter` for many times of one cheese: the series is worked out once, minutes are not checked. */
export function cheeseOverTime(input: CoolingInput): (minutes: number) => CheeseTemperatures {
  const prepared = prepare(input);
  return (minutes) => temperaturesAt(input, prepared, 60 * minutes);
}

/**
 * Minutes until the core has reached a temperature: the inverse of `cheeseAfter`.
 *
 * @param input  as `cheeseAfter` without `minutes`
 * @param input.targetCoreC  between start and bath [°C]
 * @param input.place  core where not given, or the mean
 * @returns minutes [min]; 0 where it is there already
 * Valid: as `coolingValidity`. Uncertainty: 15 %.
 * @throws InputError with code `unreachable` when the bath is not on the other side of the target
 * @source as `cheeseAfter`
 */
export function minutesToCore(
  input: CoolingInput & { readonly targetCoreC: number; readonly place?: 'core' | 'mean' },
): number {
  const { targetCoreC, fromC, bathC } = input;
  const prepared = prepare(input);
  const isCooling = bathC < fromC;
  if (isCooling ? targetCoreC >= fromC : targetCoreC <= fromC) return 0;
  if (isCooling ? targetCoreC <= bathC : targetCoreC >= bathC) {
    throw new InputError([
      {
        code: 'unreachable',
        field: 'targetCoreC',
        value: targetCoreC,
        unit: '°C',
        expected: `${isCooling ? 'above' : 'below'} the bath, ${bathC} °C`,
        remedy: isCooling ? 'Use a colder bath, or settle for a warmer core.' : 'Use a warmer bath.',
      },
    ]);
  }
  const isReached = (logMinutes: number): boolean => {
    const now = temperaturesAt(input, prepared, 60 * Math.exp(logMinutes));
    const there = input.place === 'mean' ? now.meanC : now.coreC;
    return isCooling ? there <= targetCoreC : there >= targetCoreC;
  };
  const found = firstReached({ isReached, low: Math.log(1e-3), high: Math.log(1e7), tolerance: 1e-7 });
  return found === null ? Infinity : Math.exp(found);
}

export interface IceInput {
  readonly cheeseKg: number;
  readonly cheeseKJPerKgK: number;
  readonly fromC: number;
  /** Mean of the cheese when it is taken out. */
  readonly toMeanC: number;
  readonly bathC: number;
  readonly bathL: number;
  readonly bathStartC: number;
  readonly minutes: number;
  readonly roomC?: number;
}

const ICE_MELTING_KJ_PER_KG = 333.55; // standard tables
const BUCKET_LOSS_W_PER_K = 1.8; // 10 L bucket, 30 to 40 W at 1 °C in a 20 °C room: our own calculation
const ICE_ROOM_C = 20; // common practice (no source): a heated kitchen

export const iceValidity: Validity = {
  cheeseKg: { low: 0, high: 1000, unit: 'kg', source: HERE },
  bathL: { low: 0, high: 10_000, unit: 'L', source: HERE },
  bathStartC: { low: 0, high: 60, unit: '°C', source: HERE },
};

/**
 * Ice that takes up what cheese and bath water give off.
 *
 * m = [m_c cp (T_0 - T_mean) + m_w 4.18 (T_start - T_bath) + loss t] / (333.55 + 4.19 T_bath); never below 0.
 *
 * @param input.cheeseKg  all pieces together [kg], 0 to 1000
 * @param input.bathL  bath water [L], 0 to 10000
 * @param input.bathStartC  of that water [°C], 0 to 60
 * @param input.toMeanC  mean of the cheese at the end [°C]
 * @param input.minutes  in the bath [min]
 * @returns ice [kg]
 * Valid: as `iceValidity`, ice at 0 °C. Uncertainty: 15 %; wet ice carries water, take a quarter more (our own estimate).
 * @throws InputError naming the field, its value and the range
 * @source heat balance; heat of fusion from standard tables
 */
export function iceKg(input: IceInput): number {
  const { cheeseKg, bathL, bathStartC } = input;
  requireWithin(iceValidity, { cheeseKg, bathL, bathStartC });
  return iceKernel(input);
}

/** Kernel of `iceKg`: no checks. */
export function iceKernel(input: IceInput): number {
  const { cheeseKg, bathL, bathStartC, bathC } = input;
  const cheeseKJ = cheeseKg * input.cheeseKJPerKgK * (input.fromC - input.toMeanC);
  const waterKg = (bathL * waterDensityKgPerM3(Math.max(bathStartC, 0))) / 1000;
  const waterKJ = waterKg * WATER_SPECIFIC_HEAT_KJ_PER_KG_K * (bathStartC - bathC);
  const lossWPerK = BUCKET_LOSS_W_PER_K * (bathL / 10) ** (2 / 3);
  const lossKJ = Math.max(lossWPerK * ((input.roomC ?? ICE_ROOM_C) - bathC), 0) * input.minutes * 0.06;
  return Math.max((cheeseKJ + waterKJ + lossKJ) / (ICE_MELTING_KJ_PER_KG + 4.19 * Math.max(bathC, 0)), 0);
}

/** Mass of one piece [kg] from its sizes and the cheese's density. */
export function pieceKg(input: { readonly body: Body; readonly densityKgPerM3: number }): number {
  return bodyVolumeM3(input.body) * input.densityKgPerM3;
}

/**
 * Surface transfer of a ball in still cold water by natural convection.
 *
 * Churchill's sphere rule; Rayleigh number from the density difference itself, because water is densest at 4 °C.
 *
 * @param input.diameterMm  [mm], 5 to 500
 * @param input.surfaceC  [°C], 0 to 95
 * @param input.bathC  [°C], 0 to 60
 * @returns transfer [W/(m2 K)]
 * Valid: still water, one ball away from walls. Uncertainty: 20 % (our own estimate).
 * @throws InputError naming the field, its value and the range
 * @source Churchill's sphere correlation as coded with its worked values (seen at second hand)
 */
export function stillWaterTransfer(input: {
  readonly diameterMm: number;
  readonly surfaceC: number;
  readonly bathC: number;
}): number {
  const problems: Problem[] = outside(
    {
      diameterMm: { low: 5, high: 500, unit: 'mm', source: HERE },
      surfaceC: { low: 0, high: 95, unit: '°C', source: HERE },
      bathC: { low: 0, high: 60, unit: '°C', source: HERE },
    },
    { ...input },
  );
  if (problems.length > 0) throw new InputError(problems);
  const { surfaceC, bathC } = input;
  const diameterM = input.diameterMm / 1000;
  const filmC = (surfaceC + bathC) / 2;
  const density = waterDensityKgPerM3(filmC);
  const viscosity = 2.414e-5 * 10 ** (247.8 / (filmC + 133.15)); // Pa s, standard form, from memory
  const conductivity = 0.57109 + 1.7625e-3 * filmC - 6.7036e-6 * filmC * filmC; // Choi and Okos (1986), water
  const prandtl = (viscosity * 4180) / conductivity;
  const difference = Math.abs(waterDensityKgPerM3(surfaceC) - waterDensityKgPerM3(bathC)) / density;
  const rayleigh = ((9.81 * difference * diameterM ** 3) / (viscosity / density) ** 2) * prandtl;
  const damping = 1 + (0.469 / prandtl) ** (9 / 16);
  const nusselt =
    2 +
    ((0.589 * rayleigh ** 0.25) / damping ** (4 / 9)) * (1 + (7.44e-8 * rayleigh) / damping ** (16 / 9)) ** (1 / 12);
  return (nusselt * conductivity) / diameterM;
}
