/**
 * Salt water: density, freezing, saturation and water activity of a sodium chloride brine.
 * Inside the house a brine's strength is its mass fraction of salt; every other way of saying it is converted in
 * `brine-strength.ts`.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';
import { waterDensityKgPerM3 } from './properties.ts';

/** Mass fraction of salt in the brine [kg/kg] and its temperature [°C]. */
export interface BrineState {
  readonly saltFraction: number;
  readonly temperatureC: number;
}

const NACL_G_PER_MOL = 58.443; // molar mass of sodium chloride, from memory
const WATER_KG_PER_MOL = 0.0180153; // molar mass of water, from memory

export const brineValidity: Validity = {
  saltFraction: {
    low: 0,
    high: 0.267, // fitted to rows up to 0.26; saturation at 40 °C is 0.267 (our own choice, 3 % beyond the rows)
    unit: 'kg salt per kg brine',
    source: 'fit to handbook rows up to 26 % (Poradnik fizykochemiczny 1974)',
  },
  temperatureC: {
    low: 0,
    high: 40,
    unit: '°C',
    source: 'fit to handbook rows from 0 to 40 °C (Poradnik fizykochemiczny 1974; International Critical Tables)',
  },
};

/**
 * Density of a brine (kernel, unchecked). See `brineDensityKgPerM3`.
 */
export function brineDensityKernel({ saltFraction: x, temperatureC: t }: BrineState): number {
  // Our own fit to handbook rows (Poradnik fizykochemiczny 1974, seen; ICT 1928 rows, from memory)
  return (
    waterDensityKgPerM3(t) +
    x * (761.958 - 3.2522 * t + 0.0325 * t * t) +
    x * x * (35.63 + 5.2762 * t - 0.0654 * t * t) +
    378.077 * x * x * x
  );
}

/**
 * Density of a brine of known strength and temperature.
 *
 * rho = rho_water(T) + 761.958x - 3.2522xT + 0.03250xT^2 + 35.630x^2 + 5.2762x^2T - 0.06540x^2T^2 + 378.077x^3
 *
 * @param input.saltFraction mass fraction of salt [kg salt per kg brine], 0 to 0.267
 * @param input.temperatureC brine temperature [°C], 0 to 40
 * @returns density [kg/m3]
 * Valid: as `brineValidity`.
 * Uncertainty: at most 0.25 kg/m3 from the rows it was fitted to (0.03 % salt). Pure salt only: an old brine holds
 * lactose, lactate and protein and is heavier.
 * @throws InputError outside the range
 * @source our own fit to Poradnik fizykochemiczny (WNT 1974), table of NaCl densities [seen; its column headed 15 °C is
 *   the 10 °C column], and the International Critical Tables at 0, 25 and 40 °C [from memory, not seen]
 */
export function brineDensityKgPerM3(input: BrineState): number {
  requireWithin(brineValidity, { ...input });
  return brineDensityKernel(input);
}

/**
 * Strength of a brine from its density (kernel): Newton's method on the density fit, which rises steadily with salt.
 * Wanders outside the fit's range without complaint; check where it ends.
 * @param input.densityKgPerM3 density [kg/m3]
 * @param input.temperatureC temperature at which that density was found [°C]
 * @returns mass fraction of salt [kg/kg]
 */
export function saltFractionFromDensityKernel(input: {
  readonly densityKgPerM3: number;
  readonly temperatureC: number;
}): number {
  const t = input.temperatureC;
  let x = (input.densityKgPerM3 - waterDensityKgPerM3(t)) / 760;
  for (let i = 0; i < 20; i++) {
    const slope =
      761.958 - 3.2522 * t + 0.0325 * t * t + 2 * x * (35.63 + 5.2762 * t - 0.0654 * t * t) + 3 * 378.077 * x * x;
    const step = (brineDensityKernel({ saltFraction: x, temperatureC: t }) - input.densityKgPerM3) / slope;
    x -= step;
    if (Math.abs(step) < 1e-12) break;
  }
  return x;
}

export const freezingValidity: Validity = {
  saltFraction: {
    low: 0,
    high: 0.2331, // eutectic, salt trade association table
    unit: 'kg salt per kg brine',
    source: 'Melinder 2010; beyond the eutectic (23.31 %) salt, not ice, separates',
  },
};

/**
 * Temperature at which a brine begins to freeze.
 *
 * T[K] = 263.767 - 90.39d - 220.4d^2 - 482.7d^3 + 224.7d^4, d = x - 0.133897
 *
 * @param input.saltFraction mass fraction of salt [kg salt per kg brine], 0 to 0.2331
 * @returns freezing temperature [°C]
 * Valid: as `freezingValidity`.
 * Uncertainty: 0.2 K (its largest distance from the handbook rows at 1, 5, 15 and 23 %).
 * @throws InputError above the eutectic
 * @source Melinder (2010) Properties of Secondary Working Fluids, NaCl coefficients [seen at second hand, in a public
 *   property library]; checked against CRC Handbook, 56th edition [seen at second hand]
 */
export function brineFreezingC(input: { readonly saltFraction: number }): number {
  requireWithin(freezingValidity, { saltFraction: input.saltFraction });
  const d = input.saltFraction - 0.133897; // Melinder 2010
  return 263.767 + d * (-90.39 + d * (-220.4 + d * (-482.7 + d * 224.7))) - 273.15; // Melinder 2010
}

/** Saturated brine: temperature [°C] and salt [% by mass]. Salt trade association, solubility table [seen]. */
const SATURATION_ROWS: readonly (readonly [temperatureC: number, percentByMass: number])[] = [
  [-21.1, 23.31],
  [-17.8, 23.83],
  [-12.2, 24.7],
  [-6.7, 25.53],
  [0, 26.29],
  [4.4, 26.33],
  [10, 26.36],
  [15.6, 26.395],
  [21.1, 26.45],
  [26.7, 26.52],
  [37.8, 26.68],
  [51.7, 26.92],
  [65.6, 27.21],
  [79.4, 27.62],
  [93.3, 27.91],
  [100, 28.12],
];

export const saturationValidity: Validity = {
  temperatureC: { low: -21.1, high: 100, unit: '°C', source: 'salt trade association, solubility table' },
};

/**
 * The strongest brine possible at a temperature: salt added beyond it stays on the floor of the tub.
 * @param temperatureC brine temperature [°C], -21.1 to 100
 * @returns mass fraction of salt at saturation [kg salt per kg brine], straight lines between the table's rows
 * Valid: as `saturationValidity`. Uncertainty: 0.0002.
 * @throws InputError outside the table
 * @source salt trade association, table of solubility [seen]
 */
export function saturationSaltFraction(temperatureC: number): number {
  requireWithin(saturationValidity, { temperatureC });
  let [belowC, belowPercent] = SATURATION_ROWS[0] ?? [0, 0];
  for (const [aboveC, abovePercent] of SATURATION_ROWS) {
    if (temperatureC <= aboveC) {
      if (aboveC === belowC) return abovePercent / 100;
      return (belowPercent + ((abovePercent - belowPercent) * (temperatureC - belowC)) / (aboveC - belowC)) / 100;
    }
    [belowC, belowPercent] = [aboveC, abovePercent];
  }
  return belowPercent / 100;
}

export const brineActivityValidity: Validity = {
  saltPer100gWater: {
    low: 0,
    high: 36.5, // saturation, some 6.2 mol per kg water
    unit: 'g per 100 g water',
    source: 'Pitzer & Mayorga 1973, fitted up to 6 mol per kg',
  },
};

/**
 * Water activity of pure sodium chloride in water at 25 °C (kernel).
 * @param saltPer100gWater salt [g per 100 g water]
 * @returns water activity [-]
 */
export function sodiumChlorideWaterActivityKernel(saltPer100gWater: number): number {
  const m = (saltPer100gWater * 10) / NACL_G_PER_MOL;
  const root = Math.sqrt(m);
  // Pitzer & Mayorga 1973, parameters of NaCl at 25 °C, from memory
  const osmotic =
    1 - (0.3915 * root) / (1 + 1.2 * root) + m * (0.0765 + 0.2664 * Math.exp(-2 * root)) + 0.00127 * m * m;
  return Math.exp(-WATER_KG_PER_MOL * 2 * m * osmotic);
}

/**
 * Water activity of pure sodium chloride in water.
 *
 * phi = 1 - 0.3915 sqrt(m)/(1 + 1.2 sqrt(m)) + m(0.0765 + 0.2664 exp(-2 sqrt(m))) + 0.00127 m^2;
 * a_w = exp(-0.0180153 * 2 m phi), m in mol per kg water
 *
 * @param saltPer100gWater salt [g per 100 g water], 0 to 36.5
 * @returns water activity [-], at 25 °C (it moves by less than 2 % from 0 to 50 °C)
 * Valid: as `brineActivityValidity`. Uncertainty: 0.0006 at 6 mol per kg.
 * @throws InputError outside the range
 * @source Pitzer & Mayorga (1973) J. Phys. Chem. 77:2300 [from memory, not seen]; checked against Robinson & Stokes (1965)
 *   Electrolyte Solutions, osmotic coefficients [from memory; the 6 mol row seen at second hand]
 */
export function sodiumChlorideWaterActivity(saltPer100gWater: number): number {
  requireWithin(brineActivityValidity, { saltPer100gWater });
  return sodiumChlorideWaterActivityKernel(saltPer100gWater);
}
