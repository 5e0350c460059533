/** Thermal properties of curd or cheese from its moisture and fat, for everything that warms or cools a piece. */
import { requireWithin, type Validity } from '../numbers/validity.ts';
import {
  choiOkosConductivityWPerMK,
  choiOkosDensityKgPerM3,
  choiOkosSpecificHeatKJPerKgK,
  type FoodComposition,
} from './properties.ts';

export interface CheeseThermal {
  readonly densityKgPerM3: number;
  readonly specificHeatKJPerKgK: number;
  readonly conductivityWPerMK: number;
  readonly diffusivityM2PerS: number;
}

/** Curd for stretching: half water (common practice, no source). */
export const CURD_MOISTURE_PERCENT = 50;
/** Fat where only the moisture is known: half of the solids (common practice, no source). */
const FAT_IN_SOLIDS_FRACTION = 0.5;

const CARBOHYDRATE_PERCENT = 2; // what is left of the lactose and its acid; our own estimate
const ASH_PERCENT = 2; // unsalted curd; our own estimate

export const cheeseThermalValidity: Validity = {
  moisturePercent: { low: 25, high: 85, unit: '%', source: 'our own limits: fresh curd to hard cheese' },
  fatPercent: { low: 0, high: 45, unit: '%', source: 'our own limits: fresh curd to hard cheese' },
  temperatureC: { low: 0, high: 95, unit: '°C', source: 'our own limits: above freezing' },
};

/**
 * Density, specific heat, conductivity and diffusivity of curd or cheese.
 *
 * Choi and Okos's sums with 2 % carbohydrate, 2 % ash and the rest protein; conductivity the mean of parallel and geometric mixing.
 *
 * @param input.moisturePercent  [%], 25 to 85
 * @param input.fatPercent  [%], 0 to 45; half of the solids where not given
 * @param input.temperatureC  [°C], 0 to 95
 * @returns four properties
 * Valid: as `cheeseThermalValidity`. Uncertainty: conductivity and diffusivity 12 %, the others 2 %.
 * @throws InputError naming the field; also when moisture and fat leave no room for protein
 * @source Choi and Okos (1986), coefficients seen at second hand; mixing as `choiOkosConductivityWPerMK`
 */
export function cheeseThermal(input: {
  readonly moisturePercent: number;
  readonly fatPercent?: number;
  readonly temperatureC: number;
}): CheeseThermal {
  requireWithin(cheeseThermalValidity, { ...input });
  const { moisturePercent, temperatureC } = input;
  const fatPercent = input.fatPercent ?? FAT_IN_SOLIDS_FRACTION * (100 - moisturePercent);
  requireWithin(
    { fatPercent: { low: 0, high: 95 - moisturePercent, unit: '%', source: 'water, fat and protein add up to 100 %' } },
    { fatPercent },
  );
  const composition: FoodComposition = {
    waterPercent: moisturePercent,
    fatPercent,
    carbohydratePercent: CARBOHYDRATE_PERCENT,
    ashPercent: ASH_PERCENT,
    proteinPercent: 100 - moisturePercent - fatPercent - CARBOHYDRATE_PERCENT - ASH_PERCENT,
  };
  const densityKgPerM3 = choiOkosDensityKgPerM3({ composition, temperatureC });
  const specificHeatKJPerKgK = choiOkosSpecificHeatKJPerKgK({ composition, temperatureC });
  const conductivityWPerMK = choiOkosConductivityWPerMK({ composition, temperatureC });
  return {
    densityKgPerM3,
    specificHeatKJPerKgK,
    conductivityWPerMK,
    diffusivityM2PerS: conductivityWPerMK / (1000 * densityKgPerM3 * specificHeatKJPerKgK),
  };
}
