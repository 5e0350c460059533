/**
 * The many ways of saying how strong a brine is, and what "18 % brine" may mean.
 * A strength is always kept as the mass fraction of salt; here it is read from, and said in, every other form.
 */
import { InputError, outside, type Problem, requireWithin, type Validity } from '../numbers/validity.ts';
import { brineDensityKernel, brineValidity, saltFractionFromDensityKernel, saturationSaltFraction } from './brine.ts';
import { waterDensityKgPerM3 } from './properties.ts';

export const STRENGTH_UNITS = [
  'percent-by-mass',
  'g-per-L-water',
  'g-per-L-brine',
  'saturation-percent',
  'baume',
  'density',
] as const;

export type StrengthUnit = (typeof STRENGTH_UNITS)[number];

/** Volumes of water are measured at 20 °C. Our own choice; over 5 to 30 °C it moves a strength by 0.3 % of itself. */
const MEASURING_C = 20;
const SALOMETER_FULL_PERCENT = 26.395; // °SAL 100 = saturated at 60 °F: salt trade association, solubility table [seen]
const BAUME_MODULUS = 145; // US heavy scale, 60/60 °F, from memory; the European rational scale has 144.3 at 15 °C
/** Hydrometer scales for salt are made for 60 °F. */
export const HYDROMETER_SCALE_C = 140 / 9; // 60 °F exactly

const waterAtScaleKgPerM3 = waterDensityKgPerM3(HYDROMETER_SCALE_C);
const waterMeasuredKgPerL = waterDensityKgPerM3(MEASURING_C) / 1000;

/** Strength as it was given. `temperatureC` is that of the brine (for volumes); `readAtC` that of a float's reading. */
export interface GivenStrength {
  readonly strength: number;
  readonly strengthUnit: StrengthUnit;
  readonly temperatureC: number;
  readonly readAtC?: number;
}

/** One brine, said in every way. */
export interface BrineStrength {
  readonly percentByMass: number;
  readonly gPerLWater: number;
  readonly gPerLBrine: number;
  readonly saturationPercent: number;
  readonly baume: number;
  readonly densityKgPerM3: number;
}

/** Baumé degrees (145) of a brine: 145 - 145/SG, both at 60 °F. */
function baumeOf(saltFraction: number): number {
  const gravity = brineDensityKernel({ saltFraction, temperatureC: HYDROMETER_SCALE_C }) / waterAtScaleKgPerM3;
  return BAUME_MODULUS - BAUME_MODULUS / gravity;
}

/**
 * Salt fraction from whatever was given (kernel, unchecked).
 *
 * A float (°Bé, or degrees of saturation with `readAtC`) shows a density wherever it floats: the scale is turned back into
 * the density at which it would stand at 60 °F, and the strength that has this density at the reading's temperature is
 * sought. No fixed "degrees per °C". The glass's own expansion is left out (0.03 % salt per 10 °C).
 */
export function saltFractionKernel(given: GivenStrength): number {
  return READERS[given.strengthUnit](given);
}

const READERS: Readonly<Record<StrengthUnit, (given: GivenStrength) => number>> = {
  'percent-by-mass': ({ strength }) => strength / 100,
  'g-per-L-water': ({ strength }) => strength / (strength + 1000 * waterMeasuredKgPerL),
  'g-per-L-brine': ({ strength, temperatureC }) =>
    saltFractionFromMassPerVolume({ gPerLBrine: strength, temperatureC }),
  'saturation-percent': ({ strength, readAtC }) => {
    const onScale = (strength / 100) * (SALOMETER_FULL_PERCENT / 100);
    if (readAtC === undefined) return onScale;
    const densityKgPerM3 = brineDensityKernel({ saltFraction: onScale, temperatureC: HYDROMETER_SCALE_C });
    return saltFractionFromDensityKernel({ densityKgPerM3, temperatureC: readAtC });
  },
  baume: ({ strength, readAtC = HYDROMETER_SCALE_C }) => {
    const densityKgPerM3 = (BAUME_MODULUS / (BAUME_MODULUS - strength)) * waterAtScaleKgPerM3;
    return saltFractionFromDensityKernel({ densityKgPerM3, temperatureC: readAtC });
  },
  density: ({ strength, temperatureC, readAtC = temperatureC }) =>
    saltFractionFromDensityKernel({ densityKgPerM3: strength, temperatureC: readAtC }),
};

/** x such that x * rho(x) is the given mass of salt per volume; the product rises with x, so Newton's method is sure. */
function saltFractionFromMassPerVolume(input: { gPerLBrine: number; temperatureC: number }): number {
  let x = input.gPerLBrine / 1100;
  for (let i = 0; i < 30; i++) {
    const density = brineDensityKernel({ saltFraction: x, temperatureC: input.temperatureC });
    const ahead = brineDensityKernel({ saltFraction: x + 1e-6, temperatureC: input.temperatureC });
    const step = (x * density - input.gPerLBrine) / (density + (x * (ahead - density)) / 1e-6);
    x -= step;
    if (Math.abs(step) < 1e-13) break;
  }
  return x;
}

export const strengthValidity: Validity = {
  temperatureC: brineValidity['temperatureC'] ?? { low: 0, high: 40, unit: '°C', source: 'brine density fit' },
  readAtC: brineValidity['temperatureC'] ?? { low: 0, high: 40, unit: '°C', source: 'brine density fit' },
};

/**
 * Mass fraction of salt of a brine whose strength was given in any unit.
 * @param given.strength the number, in `strengthUnit`, 0 or more
 * @param given.strengthUnit percent by mass; grams per litre of water (measured at 20 °C); grams per litre of brine;
 *   percent of saturation (the salometer's degree, 100 = 26.395 %); °Bé (145, 60 °F); density [kg/m3]
 * @param given.temperatureC brine temperature [°C], 0 to 40
 * @param given.readAtC temperature of a float's reading [°C], 0 to 40; default 60 °F for scales, the brine's for a density
 * @returns mass fraction of salt [kg salt per kg brine]
 * Valid: as `strengthValidity`, up to saturation at the brine's temperature.
 * Uncertainty: that of the density fit (0.03 % salt) and of the float, which reads high in an old brine.
 * @throws InputError when it is no brine: negative, lighter than water, or stronger than saturated
 * @source definition of the salometer scale: salt trade association [seen]; Baumé 145: from memory, not seen
 */
export function saltFractionFrom(given: GivenStrength): number {
  requireWithin(strengthValidity, { temperatureC: given.temperatureC, readAtC: given.readAtC });
  const saltFraction = saltFractionKernel(given);
  const saturated = saturationSaltFraction(given.temperatureC);
  const problems: Problem[] = [];
  if (!Number.isFinite(saltFraction) || saltFraction < -1e-9) {
    problems.push({
      code: 'impossible',
      field: 'strength',
      value: given.strength,
      unit: given.strengthUnit,
      expected: 'a strength of 0 or more (a brine is never lighter than water)',
      remedy: 'Check the number and the unit it is given in.',
    });
  } else if (saltFraction > saturated + 5e-5) {
    problems.push({
      code: 'impossible',
      field: 'strength',
      value: given.strength,
      unit: given.strengthUnit,
      expected: `at most ${(100 * saturated).toFixed(1)} % by mass, saturated at ${given.temperatureC} °C`,
      remedy:
        'More salt than this does not dissolve. If the recipe counts grams of salt for the water alone, choose that unit.',
      source: 'salt trade association, solubility table',
    });
  }
  if (problems.length > 0) throw new InputError(problems);
  return Math.max(0, saltFraction);
}

/**
 * One brine said in every way.
 * @param input.saltFraction mass fraction of salt [kg salt per kg brine], 0 to 0.267
 * @param input.temperatureC brine temperature, for the litre of brine and the density [°C], 0 to 40
 * @returns percent by mass, g per litre of water (measured at 20 °C) and of brine, percent of saturation, °Bé, kg/m3
 * Valid: as `brineValidity`. Uncertainty: that of the density fit.
 * @throws InputError outside the range
 * @source as `saltFractionFrom`
 */
export function strengthInEveryUnit(input: {
  readonly saltFraction: number;
  readonly temperatureC: number;
}): BrineStrength {
  const problems = outside(brineValidity, { ...input });
  if (problems.length > 0) throw new InputError(problems);
  const densityKgPerM3 = brineDensityKernel(input);
  const x = input.saltFraction;
  return {
    percentByMass: 100 * x,
    gPerLWater: (1000 * waterMeasuredKgPerL * x) / (1 - x),
    gPerLBrine: x * densityKgPerM3,
    saturationPercent: (100 * 100 * x) / SALOMETER_FULL_PERCENT,
    baume: baumeOf(x),
    densityKgPerM3,
  };
}

/** One thing that "N % brine" may have meant. */
export interface PercentReading {
  readonly meaning: 'by-mass' | 'baume' | 'g-per-100-mL-brine' | 'g-per-100-mL-water' | 'of-saturation';
  readonly percentByMass: number;
  readonly gPerLWater: number;
}

/**
 * The five things people mean by "N % brine", from 4.75 to 18.8 % by mass for N = 18.
 * Readings that cannot exist (stronger than saturated) are left out.
 * @param input.percent the number in "N %", above 0
 * @param input.temperatureC brine temperature [°C], 0 to 40
 * @returns each reading with what it is by mass and per litre of water
 * Valid: as `strengthValidity`. Uncertainty: that of the density fit.
 * @source HS working table recomputed from the density fit; usage: common practice (no source)
 */
export function readingsOfPercent(input: {
  readonly percent: number;
  readonly temperatureC: number;
}): PercentReading[] {
  const { percent, temperatureC } = input;
  const given: readonly (readonly [PercentReading['meaning'], StrengthUnit, number])[] = [
    ['by-mass', 'percent-by-mass', percent],
    ['baume', 'baume', percent],
    ['g-per-100-mL-brine', 'g-per-L-brine', 10 * percent],
    ['g-per-100-mL-water', 'g-per-L-water', 10 * percent],
    ['of-saturation', 'saturation-percent', percent],
  ];
  const saturated = saturationSaltFraction(temperatureC);
  const readings: PercentReading[] = [];
  for (const [meaning, strengthUnit, strength] of given) {
    const saltFraction = saltFractionKernel({ strength, strengthUnit, temperatureC });
    if (!(saltFraction >= 0 && saltFraction <= saturated)) continue;
    const { percentByMass, gPerLWater } = strengthInEveryUnit({ saltFraction, temperatureC });
    readings.push({ meaning, percentByMass, gPerLWater });
  }
  return readings;
}
