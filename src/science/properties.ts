/**
 * What milk, whey, curd and cheese are made of decides how they warm, cool and weigh.
 * Choi and Okos's component equations with three ways of mixing the conductivity; water and its vapour.
 * Left out: melting of milk fat (0 to 40 °C raises the apparent specific heat of cream and full-fat cheese), ice.
 * Milk by the litre is weighed with `milk.ts`, not with the Choi-Okos density, which is 6 to 7 kg/m3 low for milk.
 */
import { InputError, outside, type Problem, type Validity } from '../numbers/validity.ts';

/** Mass percents; they should add up to about 100. */
export interface FoodComposition {
  readonly waterPercent: number;
  readonly proteinPercent: number;
  readonly fatPercent: number;
  readonly carbohydratePercent: number;
  readonly ashPercent: number;
}

export interface FoodInput {
  readonly composition: FoodComposition;
  readonly temperatureC: number;
}

/** How the components' conductivities are put together: upper bound, in between, and the mean of both. */
export type ConductivityMixing = 'parallel' | 'geometric' | 'mean';

const CHOI_OKOS =
  'Choi and Okos (1986), Food Engineering and Process Applications 1:93, coefficients seen at second hand';

/** a + b T + c T^2, T in °C. Order of the rows everywhere below: water, protein, fat, carbohydrate, ash. */
type Quadratic = readonly [a: number, b: number, c: number];
type Rows = readonly [Quadratic, Quadratic, Quadratic, Quadratic, Quadratic];

// Choi and Okos 1986, specific heat [kJ/(kg K)]. Water 4.1762 as printed in 1986; a handbook prints 4.1289, which is 1.1 % low.
const SPECIFIC_HEAT: Rows = [
  [4.1762, -9.0864e-5, 5.4731e-6],
  [2.0082, 1.2089e-3, -1.3129e-6],
  [1.9842, 1.4733e-3, -4.8008e-6],
  [1.5488, 1.9625e-3, -5.9399e-6],
  [1.0926, 1.8896e-3, -3.6817e-6],
];
// Choi and Okos 1986, thermal conductivity [W/(m K)]
const CONDUCTIVITY: Rows = [
  [0.57109, 1.7625e-3, -6.7036e-6],
  [0.17881, 1.1958e-3, -2.7178e-6],
  [0.18071, -2.7604e-4, -1.7749e-7],
  [0.20141, 1.3874e-3, -4.3312e-6],
  [0.32962, 1.4011e-3, -2.9069e-6],
];
// Choi and Okos 1986, density [kg/m3]
const DENSITY: Rows = [
  [997.18, 3.1439e-3, -3.7574e-3],
  [1329.9, -0.5184, 0],
  [925.59, -0.41757, 0],
  [1599.1, -0.31046, 0],
  [2423.8, -0.28063, 0],
];

/** Specific heat of water between 10 and 60 °C [kJ/(kg K)], within 0.2 %: standard tables, from memory. */
export const WATER_SPECIFIC_HEAT_KJ_PER_KG_K = 4.18;

export const foodValidity: Validity = {
  temperatureC: { low: 0, high: 150, unit: '°C', source: `${CHOI_OKOS}; above freezing` },
};

export const waterValidity: Validity = {
  temperatureC: { low: 0, high: 100, unit: '°C', source: 'liquid water at atmospheric pressure' },
};

const COMPOSITION_SUM_SLACK_PERCENT = 3; // our own choice: analyses seldom add up to exactly 100

const valueAt = (row: Quadratic, temperatureC: number): number =>
  row[0] + temperatureC * (row[1] + temperatureC * row[2]);

const fractionsOf = (c: FoodComposition): readonly [number, number, number, number, number] => {
  const sum = c.waterPercent + c.proteinPercent + c.fatPercent + c.carbohydratePercent + c.ashPercent;
  return [
    c.waterPercent / sum,
    c.proteinPercent / sum,
    c.fatPercent / sum,
    c.carbohydratePercent / sum,
    c.ashPercent / sum,
  ];
};

function requireFood({ composition, temperatureC }: FoodInput): void {
  const problems: Problem[] = outside(foodValidity, { temperatureC });
  let sum = 0;
  for (const [field, value] of Object.entries<number>({ ...composition })) {
    sum += value;
    if (!(value >= 0 && value <= 100)) {
      problems.push({
        code: Number.isFinite(value) ? 'impossible' : 'not-a-number',
        field: `composition.${field}`,
        value,
        unit: '%',
        expected: '0 to 100 %',
        remedy: 'Give the mass percent.',
      });
    }
  }
  if (problems.length === 0 && Math.abs(sum - 100) > COMPOSITION_SUM_SLACK_PERCENT) {
    problems.push({
      code: 'contradiction',
      field: 'composition',
      value: sum,
      unit: '%',
      expected: 'water, protein, fat, carbohydrate and ash that add up to 97 to 103 %',
      remedy: 'Check the parts; water is what is left when the others are taken from 100.',
    });
  }
  if (problems.length > 0) throw new InputError(problems);
}

/** Kernel of `choiOkosSpecificHeatKJPerKgK`: no checks. */
export function specificHeatKernel({ composition, temperatureC }: FoodInput): number {
  const x = fractionsOf(composition);
  let sum = 0;
  for (let i = 0; i < 5; i++) sum += (x[i] ?? 0) * valueAt(SPECIFIC_HEAT[i] ?? SPECIFIC_HEAT[0], temperatureC);
  return sum;
}

/** Kernel of `choiOkosDensityKgPerM3`: no checks. */
export function densityKernel({ composition, temperatureC }: FoodInput): number {
  const x = fractionsOf(composition);
  let volume = 0;
  for (let i = 0; i < 5; i++) volume += (x[i] ?? 0) / valueAt(DENSITY[i] ?? DENSITY[0], temperatureC);
  return 1 / volume;
}

/** Kernel of `choiOkosConductivityWPerMK`: no checks. */
export function conductivityKernel(input: FoodInput & { readonly mixing: ConductivityMixing }): number {
  const { composition, temperatureC, mixing } = input;
  const x = fractionsOf(composition);
  const density = densityKernel(input);
  let parallel = 0;
  let logGeometric = 0;
  for (let i = 0; i < 5; i++) {
    const volumeFraction = ((x[i] ?? 0) * density) / valueAt(DENSITY[i] ?? DENSITY[0], temperatureC);
    const k = valueAt(CONDUCTIVITY[i] ?? CONDUCTIVITY[0], temperatureC);
    parallel += volumeFraction * k;
    logGeometric += volumeFraction * Math.log(k);
  }
  const geometric = Math.exp(logGeometric);
  if (mixing === 'parallel') return parallel;
  return mixing === 'geometric' ? geometric : (parallel + geometric) / 2;
}

/**
 * Specific heat of milk, whey, curd or cheese: the mass-weighted sum over its parts.
 *
 * cp = sum of x_i cp_i(T), x mass fractions.
 *
 * @param input.composition  mass percents, together about 100 [%]
 * @param input.temperatureC  temperature [°C], 0 to 150
 * @returns specific heat [kJ/(kg K)]
 * Valid: as `foodValidity`. Uncertainty: about 2 % (our own estimate); more between 0 and 40 °C where fat melts.
 * @throws InputError naming the field, its value and what would do
 * @source Choi and Okos (1986), Food Engineering and Process Applications 1:93 (coefficients seen at second hand)
 */
export function choiOkosSpecificHeatKJPerKgK(input: FoodInput): number {
  requireFood(input);
  return specificHeatKernel(input);
}

/**
 * Density of curd or cheese from its parts: 1/rho = sum of x_i / rho_i(T). For milk use `milkDensityKgPerM3`.
 *
 * @param input.composition  mass percents, together about 100 [%]
 * @param input.temperatureC  temperature [°C], 0 to 150
 * @returns density [kg/m3], without air
 * Valid: as `foodValidity`. Uncertainty: 1 % (milk comes out 0.7 % low).
 * @throws InputError naming the field, its value and what would do
 * @source Choi and Okos (1986), Food Engineering and Process Applications 1:93 (coefficients seen at second hand)
 */
export function choiOkosDensityKgPerM3(input: FoodInput): number {
  requireFood(input);
  return densityKernel(input);
}

/**
 * Heat conductivity. Parallel mixing (sum of v_i k_i) is the upper bound, geometric (product of k_i^v_i) lies lower;
 * for cheese the mean of both is used, because two published sets of measurements disagree by 20 % and each fits one.
 *
 * @param input.composition  mass percents, together about 100 [%]
 * @param input.temperatureC  temperature [°C], 0 to 150
 * @param input.mixing  parallel, geometric, or mean (default)
 * @returns conductivity [W/(m K)]
 * Valid: as `foodValidity`. Uncertainty: standard deviation about 12 % for cheese (spread of the two sets).
 * @throws InputError naming the field, its value and what would do
 * @source 1. Choi and Okos (1986), coefficients seen at second hand. 2. Marschoun, Muthukumarappan and Gunasekaran (2001),
 * Int. J. Food Properties 4:383, abstract seen. 3. Sweat and Parmelee (1978), seen at second hand.
 */
export function choiOkosConductivityWPerMK(input: FoodInput & { readonly mixing?: ConductivityMixing }): number {
  requireFood(input);
  return conductivityKernel({ ...input, mixing: input.mixing ?? 'mean' });
}

/**
 * How fast a temperature difference evens out inside cheese: alpha = k / (rho cp).
 *
 * @param input.composition  mass percents, together about 100 [%]
 * @param input.temperatureC  temperature [°C], 0 to 150
 * @param input.mixing  of the conductivity; mean by default
 * @returns diffusivity [m2/s], 1.1e-7 to 1.5e-7 for cheese
 * Valid: as `foodValidity`. Uncertainty: 12 %, from the conductivity; heating times scale with 1/alpha.
 * @throws InputError naming the field, its value and what would do
 * @source as `choiOkosConductivityWPerMK`
 */
export function thermalDiffusivityM2PerS(input: FoodInput & { readonly mixing?: ConductivityMixing }): number {
  const conductivity = choiOkosConductivityWPerMK(input);
  return conductivity / (densityKernel(input) * specificHeatKernel(input) * 1000);
}

/**
 * Density of water, 0 to 100 °C (Kell's rational polynomial).
 *
 * @param temperatureC  [°C], 0 to 100
 * @returns density [kg/m3]
 * Valid: as `waterValidity`. Uncertainty: far below 0.01 %.
 * @throws InputError outside 0 to 100 °C
 * @source Kell (1975), J. Chem. Eng. Data 20:97 (from memory; it gives 999.97 at 4 °C and 998.20 at 20 °C)
 */
export function waterDensityKgPerM3(temperatureC: number): number {
  requireWater(temperatureC);
  const t = temperatureC;
  const top =
    999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
  return top / (1 + 16.87985e-3 * t);
}

/**
 * Pressure of saturated water vapour (Magnus form): ps = 610.94 exp(17.625 T / (T + 243.04)).
 *
 * @param temperatureC  [°C], 0 to 100
 * @returns pressure [Pa]
 * Valid: as `waterValidity`. Uncertainty: below 0.5 % to 50 °C, 1.3 % high at 80 °C.
 * @throws InputError outside 0 to 100 °C
 * @source Alduchov and Eskridge (1996), J. Applied Meteorology 35:601 (from memory)
 */
export function saturationPressurePa(temperatureC: number): number {
  requireWater(temperatureC);
  return 610.94 * Math.exp((17.625 * temperatureC) / (temperatureC + 243.04));
}

/**
 * Heat that each kilogram of evaporating water takes along: 2501 - 2.361 T.
 *
 * @param temperatureC  [°C], 0 to 100
 * @returns heat of evaporation [kJ/kg]
 * Valid: as `waterValidity`. Uncertainty: 0.5 % (0.2 % high at 80 °C, 0.4 % at 100 °C against steam tables).
 * @throws InputError outside 0 to 100 °C
 * @source standard linear form of the steam tables, from memory
 */
export function evaporationHeatKJPerKg(temperatureC: number): number {
  requireWater(temperatureC);
  return 2501 - 2.361 * temperatureC;
}

function requireWater(temperatureC: number): void {
  const problems = outside(waterValidity, { temperatureC });
  if (problems.length > 0) throw new InputError(problems);
}
