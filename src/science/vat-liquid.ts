/** What is in the vat, by the litre: mass and heat capacity of milk, whey and water. */
import { potHeatCapacityKJPerK, type Pot } from './pot.ts';
import {
  choiOkosSpecificHeatKJPerKgK,
  WATER_SPECIFIC_HEAT_KJ_PER_KG_K,
  waterDensityKgPerM3,
  type FoodComposition,
} from './properties.ts';

export type VatLiquid = 'milk' | 'water' | 'whey';

// Whole milk and sweet whey as in the check table of Choi and Okos's equations; ordinary compositions (common practice, no source).
const WHOLE_MILK: FoodComposition = {
  waterPercent: 87.69,
  proteinPercent: 3.28,
  fatPercent: 3.66,
  carbohydratePercent: 4.65,
  ashPercent: 0.72,
};
const SWEET_WHEY: FoodComposition = {
  waterPercent: 93.1,
  proteinPercent: 0.85,
  fatPercent: 0.36,
  carbohydratePercent: 5.1,
  ashPercent: 0.5,
};
const MILK_KG_PER_L = 1.029; // whole milk at 20 °C from partial densities, Walstra and Jenness (1984), from memory
const WHEY_KG_PER_L = 1.024; // sweet whey, from memory

/**
 * Mass of a litre. Water at its own temperature (hot water is lighter); milk and whey as measured at 20 °C.
 * @param input.liquid  milk, water or whey
 * @param input.temperatureC  [°C], 0 to 100; matters for water only
 * @returns [kg/L]
 * Valid: 0 to 100 °C. Uncertainty: 0.3 % for milk of unknown fat.
 * @throws InputError for water outside 0 to 100 °C
 * @source as the constants above; water Kell (1975), from memory
 */
export function liquidKgPerL(input: { readonly liquid: VatLiquid; readonly temperatureC: number }): number {
  if (input.liquid === 'water') return waterDensityKgPerM3(input.temperatureC) / 1000;
  return input.liquid === 'milk' ? MILK_KG_PER_L : WHEY_KG_PER_L;
}

/**
 * Specific heat of milk, water or whey [kJ/(kg K)].
 * @param input.liquid  milk, water or whey
 * @param input.temperatureC  [°C], 0 to 100
 * @returns [kJ/(kg K)]
 * Valid: 0 to 100 °C; melting of fat left out (milk below 40 °C up to 3 % higher). Uncertainty: 1 %.
 * @throws InputError outside 0 to 100 °C
 * @source Choi and Okos (1986), coefficients seen at second hand
 */
export function liquidSpecificHeatKJPerKgK(input: {
  readonly liquid: VatLiquid;
  readonly temperatureC: number;
}): number {
  if (input.liquid === 'water') return WATER_SPECIFIC_HEAT_KJ_PER_KG_K;
  const composition = input.liquid === 'milk' ? WHOLE_MILK : SWEET_WHEY;
  return choiOkosSpecificHeatKJPerKgK({ composition, temperatureC: input.temperatureC });
}

/** Heat that the liquid and the pot around it take up per kelvin [kJ/K]. */
export function vatHeatCapacityKJPerK(input: {
  readonly liquid: VatLiquid;
  readonly volumeL: number;
  readonly temperatureC: number;
  readonly pot: Pick<Pot, 'massKg' | 'material'>;
}): number {
  return input.volumeL * liquidKgPerL(input) * liquidSpecificHeatKJPerKgK(input) + potHeatCapacityKJPerK(input.pot);
}
