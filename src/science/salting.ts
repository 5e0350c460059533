/**
 * Salt going into a cheese that lies in brine, and the water it pushes out.
 * Salt travels through the cheese's own water (pseudo-diffusion); the water leaves as salt comes in, so the water near the
 * rind, and with it the room for salt, is less than in the middle. Cheese by cheese differences are parameters, not code.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';
import { type Body, bodyTerms, type BodyTerms } from './body.ts';
import { meanFractionKernel, type SeriesShape } from './series.ts';

/** A cheese and its brine, as far as salt uptake goes. */
export interface SaltingInput {
  readonly body: Body;
  /** Water in the cheese when it goes in [% of its mass]. */
  readonly moisturePercent: number;
  /** Strength of the brine [% by mass]. */
  readonly brinePercent: number;
  /** Of brine and cheese alike [°C]. */
  readonly temperatureC: number;
  /** Grams of water the cheese gives for each gram of salt it takes. */
  readonly waterPerSalt: number;
  /** Thickness of cheese that would hold salt back as much as the rind does [mm]; 0 for fresh and rindless cheese. */
  readonly skinMm: number;
  /** Salt already in the cheese's water when it goes in [g per 100 g water]; default 0. */
  readonly startSaltInMoisturePercent?: number;
  /** What was learned of this recipe: factor on the diffusivity; default 1. */
  readonly diffusivityFactor?: number;
  /** Mass of brine for each kg of cheese [kg]; left out, the brine does not weaken. */
  readonly brinePerCheese?: number;
}

/** What came out of the brine, for each kg of cheese that went in. */
export interface SaltedCheese {
  readonly saltPercent: number;
  /** Grams of salt per 100 g of water. */
  readonly saltInMoisturePercent: number;
  readonly moisturePercent: number;
  /** Negative where the cheese got lighter. */
  readonly massChangePercent: number;
  readonly saltTakenPerKg: number;
  readonly waterGivenPerKg: number;
}

/** Default water lost per salt gained [g/g]: fresh stretched 1.5, pressed 2.2, fresh lactic 4; our own reading of Chamba 1988 (2.3 derived), Guinee & Fox 1983, and common practice. */
export const WATER_PER_SALT = { stretched: 1.5, pressed: 2.2, lactic: 4 } as const; // our own choice
/** Default skin [mm]: our own fit to Chamba 1988 and to published brining times; 0 to 3 mm for pressed cheese. */
export const SKIN_MM = { fresh: 0, pressed: 1 } as const; // our own fit

export const saltingValidity: Validity = {
  moisturePercent: {
    low: 25,
    high: 80,
    unit: '% of the cheese',
    source: 'diffusivity fitted to cheeses of 35 to 59 % water (Floury et al. 2010, Table II); our own choice beyond',
  },
  brinePercent: { low: 1, high: 26.7, unit: '% by mass', source: 'saturation; measured mostly from 6 to 30 %' },
  temperatureC: {
    low: 0,
    high: 40,
    unit: '°C',
    source: 'temperature factor checked from 4 to 20 °C; our own choice beyond',
  },
  waterPerSalt: {
    low: 0,
    high: 6,
    unit: 'g water per g salt',
    source: 'Guinee & Fox 1983 (0.5 to 2.4); dry-salted lactic curd to 5',
  },
  skinMm: { low: 0, high: 5, unit: 'mm', source: 'our own fit, 0 to 3 mm' },
  hours: { low: 0, high: 5000, unit: 'h', source: 'our own choice' },
};

/** The temperatures over which the diffusivity's temperature factor was checked [°C]; outside, an answer says so. */
export const SALTING_CHECKED_C = { low: 4, high: 20 } as const; // white cheese 4 to 20 °C, Sbrinz 7 to 20 °C (Floury et al. 2010)

/** Kernel of `saltDiffusivityM2PerS`. */
export function saltDiffusivityKernel(input: {
  readonly moisturePercent: number;
  readonly temperatureC: number;
}): number {
  // Our own fit to Floury, Jeanson, Aly & Lortal 2010, Table II; temperature factor from white cheese and Sbrinz there
  return (1.74 + 0.043 * (input.moisturePercent - 35)) * 1e-10 * Math.exp(0.042 * (input.temperatureC - 13));
}

/**
 * How fast salt moves through a cheese's water.
 *
 * D = (1.74 + 0.043 (w - 35)) 1e-10 exp(0.042 (T - 13)), w in % water
 *
 * @param input.moisturePercent water in the cheese [% of mass], 25 to 80
 * @param input.temperatureC [°C], 0 to 40; checked from 4 to 20
 * @returns diffusivity of salt in the moisture [m2/s]
 * Valid: as `saltingValidity`.
 * Uncertainty: 35 % between cheeses (median distance from the rows 19 %, worst 45 %); learn a factor for each recipe.
 * @throws InputError outside the range
 * @source our own fit to Floury, Jeanson, Aly & Lortal (2010) Dairy Sci. Technol. 90:477, Table II [its first rows seen]
 */
export function saltDiffusivityM2PerS(input: {
  readonly moisturePercent: number;
  readonly temperatureC: number;
}): number {
  requireWithin(saltingValidity, { moisturePercent: input.moisturePercent, temperatureC: input.temperatureC });
  return saltDiffusivityKernel(input);
}

/** Terms for a body behind a rind, worked out once; they may be shared by all members that have this body and skin. */
export function saltingTerms(input: { readonly body: Body; readonly skinMm: number }): BodyTerms {
  return bodyTerms({ body: input.body, surfacePerM: input.skinMm > 0 ? 1000 / input.skinMm : Infinity });
}

const ROOT_PI = Math.sqrt(Math.PI);

/** Uptake of one axis with no rind: short-time forms (Crank 1975, from memory), the series only where they end. */
function bareUptake(axis: { readonly shape: SeriesShape; readonly fourier: number }): number | null {
  const { shape, fourier } = axis;
  if (fourier >= (shape === 'cylinder' ? 0.01 : 0.1)) return null;
  const root = Math.sqrt(fourier);
  if (shape === 'slab') return (2 * root) / ROOT_PI;
  if (shape === 'sphere') return (6 * root) / ROOT_PI - 3 * fourier;
  return (4 * root) / ROOT_PI - fourier - (root * fourier) / (3 * ROOT_PI);
}

/**
 * Share of the way to the brine's own strength that the cheese's mean has come (kernel: no checks, no allocation).
 *
 * E = 1 - product over axes of the mean share left; short-time forms while the middle knows nothing of the brine.
 *
 * @param input.prepared from `saltingTerms`
 * @param input.diffusivityM2PerS of salt [m2/s]
 * @param input.seconds in the brine [s]
 * @returns E [-], 0 to 1
 * @source Crank (1975) The Mathematics of Diffusion, ch. 4 to 6 [from memory, not seen]
 */
export function saltUptakeFraction(input: {
  readonly prepared: BodyTerms;
  readonly diffusivityM2PerS: number;
  readonly seconds: number;
}): number {
  const { axes, terms } = input.prepared;
  let left = 1;
  for (let i = 0; i < axes.length; i++) {
    const axis = axes[i];
    const term = terms[i];
    if (axis === undefined || term === undefined) continue;
    const fourier = (input.diffusivityM2PerS * input.seconds) / (axis.halfLengthM * axis.halfLengthM);
    const bare = term.biot === Infinity ? bareUptake({ shape: axis.shape, fourier }) : null;
    left *= bare === null ? meanFractionKernel(term, fourier) : 1 - bare;
  }
  return 1 - left;
}

/**
 * Salt taken by each kg of cheese (kernel), given how far the diffusion has come.
 *
 * S = w0 c E [ g(u)(1 - E) + E/(1 + u) ], u = p c, g(u) the integral of erfc/(1 + u erfc) over that of erfc:
 * where water has left there is less room for salt.
 *
 * @param input.uptakeFraction E [-], from `saltUptakeFraction`
 * @param input.moistureFraction water in the cheese at the start [kg/kg]
 * @param input.saltPerWater driving salt: brine's salt per water less the cheese's [kg/kg]
 * @param input.waterPerSalt p [g/g]
 * @returns salt taken [kg per kg cheese]
 * @source our own, after Geurts, Walstra & Mulder (1974) Neth. Milk Dairy J. 28 [from memory, not seen]
 */
export function saltTakenKernel(input: {
  readonly uptakeFraction: number;
  readonly moistureFraction: number;
  readonly saltPerWater: number;
  readonly waterPerSalt: number;
}): number {
  const e = input.uptakeFraction;
  const u = input.waterPerSalt * input.saltPerWater;
  // Our own fit to the integral, within 0.05 % up to u = 2; its slope at 0, 2 - sqrt 2, is exact.
  const g = (1 + 0.42 * u) / (1 + (2.42 - Math.SQRT2) * u + 0.17 * u * u);
  return input.moistureFraction * input.saltPerWater * e * ((1 - e) * g + e / (1 + u));
}

/** The cheese after so much salt went in (mass balance; kernel). Start values for 1 kg of cheese. */
export function saltedCheeseKernel(input: {
  readonly moistureFraction: number;
  readonly startSaltPerKg: number;
  readonly saltTakenPerKg: number;
  readonly waterPerSalt: number;
}): SaltedCheese {
  const { saltTakenPerKg } = input;
  const waterGivenPerKg = input.waterPerSalt * saltTakenPerKg;
  const massPerKg = 1 + saltTakenPerKg - waterGivenPerKg;
  const waterPerKg = input.moistureFraction - waterGivenPerKg;
  const saltPerKg = input.startSaltPerKg + saltTakenPerKg;
  return {
    saltPercent: (100 * saltPerKg) / massPerKg,
    saltInMoisturePercent: (100 * saltPerKg) / waterPerKg,
    moisturePercent: (100 * waterPerKg) / massPerKg,
    massChangePercent: 100 * (massPerKg - 1),
    saltTakenPerKg,
    waterGivenPerKg,
  };
}

/**
 * Density of a cheese from its water alone, for turning sizes into masses (kernel).
 * @param moisturePercent water in the cheese [% of mass], 25 to 80
 * @returns density [kg/m3]
 * Uncertainty: 3 %, for fat is not asked.
 * @source our own line through Choi & Okos (1986) sums for a stretched curd of 54 % and a washed-curd cheese of 41.5 % water
 */
export const cheeseDensityFromMoistureKgPerM3 = (moisturePercent: number): number =>
  1051 + 1.5 * (54.1 - moisturePercent);

/** Salt per water of a brine [kg/kg] from its percent by mass. */
export const saltPerWaterOf = (brinePercent: number): number => brinePercent / (100 - brinePercent);
