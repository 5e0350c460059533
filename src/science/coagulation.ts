/**
 * How fast rennet clots milk, and when to cut.
 *
 * Covers: dose, temperature, pH, added calcium, species, heat treatment, and the maker's own factor k. Leaves out: salt,
 * stage of lactation, somatic cells, coagulant type (lots differ; k takes them up). Absolute times are poor before the
 * maker's own calibration; the shape with temperature is good. Firmness after clotting: `firmness.ts`.
 */
import { type Validity, InputError, outside, requireWithin } from '../numbers/validity.ts';
import type { MilkSpecies } from './milk.ts';

export const HEAT_TREATMENTS = ['raw', 'pasteurised', 'high-heat', 'uht'] as const;
export type HeatTreatment = (typeof HEAT_TREATMENTS)[number];

/** What the rate of clotting depends on at one moment; all numbers, so that a simulator can reuse one object. */
export interface ClottingState {
  /** Rennet activity in the milk [IMCU/L], already aged. */
  doseImcuPerL: number;
  /** Milk temperature [°C]. */
  temperatureC: number;
  pH: number;
  /** Calcium added as calcium chloride [mmol per litre of milk]. */
  addedCalciumMM: number;
  /** From `HEAT_SLOWING`: how many times slower at pH 6.5 without added calcium; Infinity = never. */
  heatSlowing: number;
  /** From `SPECIES_CLOTTING_FACTOR`. */
  speciesFactor: number;
  /** The maker's own k: observed over model time, 1 before any batch. */
  makerFactor: number;
}

export interface ClottingInput {
  readonly doseImcuPerL: number;
  readonly temperatureC: number;
  readonly pH: number;
  readonly addedCalciumMM?: number;
  readonly heatTreatment?: HeatTreatment;
  readonly species?: MilkSpecies;
  /** Own factor learned from own flocculation times; narrows the band. */
  readonly makerFactor?: number;
}

/** A time with its 90 % band. */
export interface TimeBand {
  readonly p5: number;
  readonly p50: number;
  readonly p95: number;
}

const REFERENCE_TIME_MIN = 15; // our own calibration at 50 IMCU/L, 31 °C, pH 6.6: Hill, university web notes on rennet activity (200 mL single strength in 1000 kg, first flecks 15-20 min), seen; single strength read as 250 IMCU/mL
const REFERENCE_DOSE_IMCU_PER_L = 50; // same
const REFERENCE_C = 31; // same (30-32 °C)
const REFERENCE_PH = 6.6; // same
// Cardinal temperatures: our own fit of 3 numbers to 4 activities (21.1, 28.9, 32.2-34.4, 48.9 °C) in Thom and Fisk 1918, The Book of Cheese, seen: nearly saturated
const LOWEST_C = 13; // our own fit, see above
const BEST_C = 39.75; // our own fit, see above
const HIGHEST_C = 52.25; // our own fit, see above
const PH_SLOPE = 2.5; // per pH unit; our own fit to sweet against ripe milk, 85 s and 40 s, in a printed pan test (old handbook, seen); the pH values 6.60 and 6.30 are our reading. Probably steeper below pH 6.4
const CALCIUM_DOUBLING_MMOL_PER_KG = 2.4; // our own fit: 0.02 % CaCl2, with the fall of 0.075 pH that it brings, makes up for halved rennet, J. Dairy Sci. 41:61 (1958), abstract seen
const CALCIUM_NO_EFFECT_PH = 5.8; // study of milk heated to 87 °C for 10 min, University of Belgrade, abstract seen: at pH 5.8 heat and calcium hardly matter
const CALCIUM_FULL_EFFECT_PH = 6.6; // our own choice
const HEAT_FULL_EFFECT_PH = 6.5; // the same Belgrade study compared pH 6.5 with 5.8
const MILK_KG_PER_L = 1.03; // whole milk at 20 °C; our own rounding, 0.3 %

/** Times slower at pH 6.5 without added calcium; fades to 1 at pH 5.8. */
export const HEAT_SLOWING: Readonly<Record<HeatTreatment, number>> = {
  raw: 1,
  pasteurised: 1.07, // "slight longer clotting": paper on curd tension, J. Dairy Sci., abstract seen; size 1.05-1.10 our own
  'high-heat': 3, // our own reading of one figure of the Belgrade study (87 °C, 10 min)
  uht: Number.POSITIVE_INFINITY, // no usable rennet gel: from memory; severe denaturation reviewed in Britten and Giroux 2021, abstract seen
};

/** Time against cow's milk at the same dose. Direction Bittante et al. 2022, J. Dairy Sci. 105:2132, seen; sizes from memory. */
export const SPECIES_CLOTTING_FACTOR: Readonly<Record<MilkSpecies, number>> = {
  cow: 1,
  buffalo: 0.75, // from memory
  goat: 0.7, // from memory
  sheep: 0.55, // from memory
};

/** Standard deviation of ln(time): 90 % lie within a factor 1.5 either way before own calibration (our own statement of "±50 %"). */
export const CLOTTING_LN_SD = Math.log(1.5) / 1.645; // our own choice
/** The same once the maker's own factor is known: within a factor 1.2. */
export const CLOTTING_LN_SD_CALIBRATED = Math.log(1.2) / 1.645; // our own choice, no record behind it

export const clottingValidity: Validity = {
  doseImcuPerL: { low: 2, high: 300, unit: 'IMCU/L', source: 'time goes as 1/dose over a wide range (abstract seen)' },
  temperatureC: {
    low: 21,
    high: 46,
    unit: '°C',
    source: 'activities printed for 21.1 to 48.9 °C (Thom and Fisk 1918)',
  },
  pH: { low: 5.6, high: 6.9, unit: 'pH', source: 'pan test at 6.3-6.6, Belgrade study 5.8-6.5; widened by us' },
  addedCalciumMM: { low: 0, high: 5, unit: 'mmol/L', source: 'added calcium studied to 3.6 mmol/kg; widened by us' },
  makerFactor: { low: 0.2, high: 5, unit: '', source: 'our own bounds on a believable factor' },
};

function cardinalShape(temperatureC: number): number {
  if (temperatureC <= LOWEST_C || temperatureC >= HIGHEST_C) return 0;
  const fromLowest = temperatureC - LOWEST_C;
  const span = BEST_C - LOWEST_C;
  return (
    ((temperatureC - HIGHEST_C) * fromLowest * fromLowest) /
    (span * (span * (temperatureC - BEST_C) - (BEST_C - HIGHEST_C) * (BEST_C + LOWEST_C - 2 * temperatureC)))
  );
}

const ACTIVITY_AT_REFERENCE = cardinalShape(REFERENCE_C);

/**
 * Activity of rennet at a temperature, as a share of its best (kernel, unchecked).
 *
 * a = (T-Tx)(T-Tn)^2 / {(To-Tn)[(To-Tn)(T-To) - (To-Tx)(To+Tn-2T)]} between Tn = 13 and Tx = 52.25 °C, To = 39.75 °C.
 *
 * @param temperatureC  [°C]; 0 is returned outside 13 to 52.25
 * @returns share of the best activity [-], 0 to 1
 * Valid: 21 to 49 °C. Uncertainty: 5 % of the value where it was measured.
 * @source Thom and Fisk (1918) The Book of Cheese, four activities, seen; shape our own fit
 */
export function rennetActivityAt(temperatureC: number): number {
  return cardinalShape(temperatureC);
}

/** Share of full effect between two pH values: 0 at and below `noneAt`, 1 at and above `fullAt`. */
function ramp(pH: number, noneAt: number, fullAt: number): number {
  return pH <= noneAt ? 0 : pH >= fullAt ? 1 : (pH - noneAt) / (fullAt - noneAt);
}

/**
 * How fast clotting goes forward at this moment (kernel, unchecked, allocates nothing): integrate it over the minutes
 * since rennet; flocculation is where the sum reaches 1.
 *
 * rate = (E/50)/15 * a(T)/a(31) * exp(-2.5(pH-6.6)) * (1 + w c/2.4) / (k * species * heat), per minute.
 *
 * @param state  dose [IMCU/L], temperature [°C], pH, added calcium [mmol/L] and three factors; see `ClottingState`
 * @returns progress per minute [1/min]; 0 where rennet does nothing (UHT milk, below 13 or above 52.25 °C, no dose)
 * @source as `clottingTime`
 */
export function clottingRatePerMin(state: ClottingState): number {
  if (state.heatSlowing === Number.POSITIVE_INFINITY) return 0;
  const calcium =
    1 +
    (ramp(state.pH, CALCIUM_NO_EFFECT_PH, CALCIUM_FULL_EFFECT_PH) * state.addedCalciumMM) /
      (MILK_KG_PER_L * CALCIUM_DOUBLING_MMOL_PER_KG);
  const heat = 1 + (state.heatSlowing - 1) * ramp(state.pH, CALCIUM_NO_EFFECT_PH, HEAT_FULL_EFFECT_PH);
  const activity = cardinalShape(state.temperatureC) / ACTIVITY_AT_REFERENCE;
  const dose = state.doseImcuPerL / REFERENCE_DOSE_IMCU_PER_L;
  return (
    (dose * activity * calcium * Math.exp(-PH_SLOPE * (state.pH - REFERENCE_PH))) /
    (REFERENCE_TIME_MIN * state.makerFactor * state.speciesFactor * heat)
  );
}

/**
 * Time from rennet to first visible flecks at constant conditions (kernel, unchecked): one over `clottingRatePerMin`.
 *
 * @param state  as `clottingRatePerMin`
 * @returns time [min]; Infinity where the milk never clots
 * @source as `clottingTime`
 */
export function clottingTimeMin(state: ClottingState): number {
  return 1 / clottingRatePerMin(state);
}

/** The numbers of a clotting state from words and defaults: cow's milk, pasteurised, nothing added, k = 1. */
export function clottingState(input: ClottingInput): ClottingState {
  return {
    doseImcuPerL: input.doseImcuPerL,
    temperatureC: input.temperatureC,
    pH: input.pH,
    addedCalciumMM: input.addedCalciumMM ?? 0,
    heatSlowing: HEAT_SLOWING[input.heatTreatment ?? 'pasteurised'],
    speciesFactor: SPECIES_CLOTTING_FACTOR[input.species ?? 'cow'],
    makerFactor: input.makerFactor ?? 1,
  };
}

/**
 * When the first flecks will be seen after rennet.
 *
 * t = k * 15 min * (50/E) * a(31)/a(T) * exp[2.5(pH - 6.6)] * f_calcium * f_heat * f_species; f_calcium = 1/(1 + w c/2.4)
 * with c in mmol/kg (take the milk's pH after the calcium) and w falling from 1 at pH 6.6 to 0 at 5.8. Casein and homogenising do not move it.
 *
 * @param input.doseImcuPerL  rennet activity [IMCU/L], 2 to 300
 * @param input.temperatureC  milk temperature [°C], 21 to 46
 * @param input.pH  milk pH at rennet [-], 5.6 to 6.9
 * @param input.addedCalciumMM  added calcium [mmol/L], 0 to 5
 * @param input.heatTreatment  raw, pasteurised, high-heat or uht (refused)
 * @param input.species  cow, goat, sheep or buffalo
 * @param input.makerFactor  own factor [-], 0.2 to 5
 * @returns minutes to first flecks: median and 90 % band
 * Valid: as `clottingValidity`. Uncertainty: a factor 1.5 either way before own calibration, 1.2 after (our own statement).
 * @throws InputError naming every field that does not fit, and for UHT milk
 * @source 1. Hill, university web notes, rennet activity, seen. 2. Thom and Fisk (1918), seen. 3. J. Dairy Sci. 41:61 (1958),
 * abstract seen. 4. Bittante et al. (2022) J. Dairy Sci. 105:2132, abstract seen. Form and fit our own.
 */
export function clottingTime(input: ClottingInput): TimeBand {
  const { doseImcuPerL, temperatureC, pH, addedCalciumMM, makerFactor } = input;
  const problems = outside(clottingValidity, { doseImcuPerL, temperatureC, pH, addedCalciumMM, makerFactor });
  if (input.heatTreatment === 'uht') {
    problems.push({
      code: 'unreachable',
      field: 'heatTreatment',
      value: 'uht',
      expected: 'raw, pasteurised or high-heat milk',
      remedy: 'UHT milk gives no usable rennet curd: take other milk, or make a cheese set by acid and heat.',
      source: 'from memory; Britten and Giroux 2021',
    });
  }
  if (problems.length > 0) throw new InputError(problems);
  const p50 = clottingTimeMin(clottingState(input));
  const factor = Math.exp(1.645 * (makerFactor === undefined ? CLOTTING_LN_SD : CLOTTING_LN_SD_CALIBRATED));
  return { p5: p50 / factor, p50, p95: p50 * factor };
}

/** Minutes from rennet to cut over minutes to flecks. All common practice (no source) unless a line says otherwise. */
export const FLOCCULATION_MULTIPLIERS = {
  'hard-grating': { low: 2, typical: 2.25, high: 2.5, source: 'common practice (no source)' },
  alpine: { low: 2, typical: 2.25, high: 2.5, source: 'common practice (no source)' },
  cheddar: {
    low: 2.5,
    typical: 2.5,
    high: 3.5,
    source: 'Thom and Fisk 1918 §196: two and one-half; the rest practice',
  },
  washed: { low: 3, typical: 3.25, high: 3.5, source: 'common practice (no source)' },
  stretched: { low: 3, typical: 3, high: 4, source: 'common practice (no source)' },
  brined: { low: 4, typical: 4, high: 4, source: 'common practice (no source)' },
  bloomy: { low: 5, typical: 5.5, high: 6, source: 'common practice (no source)' },
} as const;
/** First flecks to a set curd, where no family is meant: Hill, university web notes, seen ("about half that time"). */
export const SETTING_MULTIPLIER = 2;

export const cutTimeValidity: Validity = {
  flocculationMin: {
    low: 2,
    high: 90,
    unit: 'min',
    source: 'quick direct-acid sets to slow lactic ones (our own bounds)',
  },
  multiplier: { low: 1, high: 7, unit: '', source: 'common practice (no source): 1.5 to 6' },
  errorMin: { low: 0, high: 15, unit: 'min', source: 'our own bounds' },
};

/**
 * When to cut, from the flocculation time that was seen.
 *
 * Cut = multiplier x flocculation time, both counted from rennet in. The multiplier states a wish for moisture, clean break
 * a firmness now: ask for both, replace neither by the other.
 *
 * @param input.flocculationMin  rennet in to first firm stop of the bowl [min], 2 to 90
 * @param input.multiplier  [-], 1 to 7
 * @param input.errorMin  half-width of the 90 % band of the time seen [min], 0 to 15
 * @returns minutes from rennet to cut, with the band that the seen time's error gives
 * Valid: as `cutTimeValidity`.
 * @throws InputError naming every field that does not fit
 * @source common practice (no source)
 */
export function cutTime(input: { flocculationMin: number; multiplier: number; errorMin: number }): TimeBand {
  requireWithin(cutTimeValidity, { ...input });
  const { flocculationMin, multiplier, errorMin } = input;
  return {
    p5: multiplier * Math.max(0, flocculationMin - errorMin),
    p50: multiplier * flocculationMin,
    p95: multiplier * (flocculationMin + errorMin),
  };
}
