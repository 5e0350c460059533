/**
 * How milk and curd turn sour: growth with a lag, acid with and without growth, the pH through the buffer, in curd and whey.
 * This file is the kernel: rates of a state of eleven numbers, written for a Runge-Kutta loop (nothing is allocated).
 * `acidification-step.ts` is that loop; `acidification-events.ts` cuts, drains and washes; `acidification-make.ts` runs a whole make with checks.
 * Left out: rods and cocci apart, nitrogen and citrate metabolism, ionic speciation. Death by heat: `heat-death.ts`.
 * Sources: cardinal models Rosso et al. (1995), first page seen; lag Baranyi and Roberts (1994), from memory; constants in
 * `culture.ts`, buffer in `buffer.ts`.
 */
import { TABLE_LAST_ROW, TABLE_LOW_PH, TABLE_ROWS_PER_PH, TABLE_STRIDE, type BufferTable } from './buffer.ts';
import type { CultureTraits } from './culture.ts';

/**
 * Places in the state. Amounts are per litre of ORIGINAL milk; strength is serum dilution, 1 = undiluted. What changes in
 * any milk stands first, then what changes only while curd and whey lie together, then the waking up (`lnQ`), which asks
 * nothing of the others.
 */
export const ACID_STATE = {
  cellsPerL: 0,
  curdPH: 1,
  curdLactoseMM: 2,
  curdLactateMM: 3,
  curdStrength: 4,
  wheyPH: 5,
  wheyLactoseMM: 6,
  wheyLactateMM: 7,
  wheyStrength: 8,
  wheyCellsPerL: 9,
  lnQ: 10,
} as const;
export const ACID_STATE_SIZE = Object.keys(ACID_STATE).length;

/** Before cutting the curd is all the milk; then curd and free whey; then curd alone. */
export type AcidPhase = 'milk' | 'curd-in-whey' | 'drained';

/** What stays the same through one member's make. */
export interface AcidParameters {
  readonly culture: CultureTraits;
  /** Shared by all members of one milk. */
  readonly buffer: BufferTable;
  /** Batch factor on every buffer capacity, 1 with standard deviation 0.07 (our own estimate). */
  readonly bufferFactor: number;
  /** Factor on the acid rate after draining, ln-normal, median 0.8, sd 0.4 (fit to published makes). */
  readonly curdRateFactor: number;
  /** Share of the colloidal phosphate that still dissolves after draining: 0.15 over hours. */
  readonly drainedDissolvedFraction: number;
  /** Exchange of solutes between curd and whey, per hour; from the cube by `exchangePerHour`. */
  readonly exchangePerHour: number;
  /** Protons on undiluted serum at the starting pH [mmol/L]; from `tableValue`. */
  readonly serumProtonsAtStart: number;
}

/** What changes through the make. One object is reused: the caller overwrites its fields before each call. */
export interface AcidConditions {
  temperatureC: number;
  /** Solvent water in the curd [L per L of milk]; 1 before cutting. */
  curdSerumL: number;
  /** Free whey and wash water in the vat [L per L of milk]; 0 before cutting and after draining. */
  wheyL: number;
  phase: AcidPhase;
  /** 1 before salting, then 0.25 for lactococci, 0.1 for thermophiles. */
  saltFactor: number;
}

const LACTOSE_HALF_MM = 2; // Ks, from memory
const UNDISSOCIATED_LIMIT_MM = 40; // our own fit: curds at pH 5 hold 26 to 32 mmol/L and acid still came (Lee 2017)
const GROWTH_PH_MAX = 8.5; // from memory
const LN_Q_FULL = 30; // beyond this the lag is over to 13 digits
// A film of whey just after cutting must not even out faster than a Runge-Kutta step of 12.5 min can follow [1/h]; our own.
const EXCHANGE_CAP_PER_HOUR = 13;

/** After dry salting: common practice (no source), 0.1 to 0.4 for lactococci. */
export const SALT_FACTOR = { mesophilic: 0.25, thermophilic: 0.1 } as const;
/** Colloidal phosphate that dissolves in drained curd within hours: Lee (2017), J. Milk Sci. Biotechnol. 35:85, Table 5, seen. */
export const DRAINED_DISSOLVED_FRACTION = 0.15;
/** Acid rate of drained curd: median and ln-standard deviation; our own fit, tuned on the check makes as well. */
export const CURD_RATE_FACTOR = { median: 0.8, lnSd: 0.4 } as const;
/** Spread of the batch buffer factor: our own estimate. */
export const BUFFER_FACTOR_SD = 0.07;

/**
 * Share of the best growth at a temperature: 1 at the optimum, 0 at and beyond the limits (kernel, no checks).
 * CTMI = (T-Tmax)(T-Tmin)^2 / ((Topt-Tmin)[(Topt-Tmin)(T-Topt) - (Topt-Tmax)(Topt+Tmin-2T)]).
 * @source Rosso et al. (1995), Appl. Environ. Microbiol. 61:610, first page seen
 */
export function temperatureFactor(culture: CultureTraits, temperatureC: number): number {
  const { temperatureMinC: low, temperatureOptC: best, temperatureMaxC: high } = culture;
  if (temperatureC <= low || temperatureC >= high) return 0;
  const span = best - low;
  const top = (temperatureC - high) * (temperatureC - low) * (temperatureC - low);
  return top / (span * (span * (temperatureC - best) - (best - high) * (best + low - 2 * temperatureC)));
}

/** Share of the best rate at a pH between `low` and 8.5, 1 at `best` (Rosso et al. 1995, first page seen). */
function pHFactor(pH: number, low: number, best: number): number {
  if (pH <= low || pH >= GROWTH_PH_MAX) return 0;
  const product = (pH - low) * (pH - GROWTH_PH_MAX);
  return product / (product - (pH - best) * (pH - best));
}

/** Exchange between curd cubes and whey: about 3 pi^2 D / a^2, with D = 4.5e-10 m2/s (from memory). */
export function exchangePerHour(cubeMm: number): number {
  const edgeM = cubeMm / 1000;
  return (3 * Math.PI * Math.PI * 4.5e-10 * 3600) / (edgeM * edgeM);
}

/** How many places of the state, from the first, change by `souringRatesPerHour` under these conditions. */
export function changingPlaces(conditions: AcidConditions): number {
  return hasWhey(conditions) ? ACID_STATE.lnQ : ACID_STATE.curdStrength;
}

const hasWhey = (conditions: AcidConditions): boolean => conditions.phase === 'curd-in-whey' && conditions.wheyL > 1e-9;

/** Share of the cells' full speed that the lag leaves them: Q / (1 + Q), Baranyi and Roberts (1994), from memory. */
export function awakeShare(lnQ: number): number {
  return lnQ > LN_Q_FULL ? 1 : 1 / (1 + Math.exp(-lnQ));
}

/**
 * Writes the rates of change per hour of the acid state (kernel: no checks, no allocation).
 *
 * dpH/dt = -(acid made x (1 - protonated share of lactate) - protons from the whey) / buffer capacity.
 * `offset` is where the eleven numbers start, for a state that holds more than acid.
 */
export function acidRatesPerHour(
  state: Float64Array,
  derivative: Float64Array,
  parameters: AcidParameters,
  conditions: AcidConditions,
  offset = 0,
): void {
  const atTemperature = temperatureFactor(parameters.culture, conditions.temperatureC);
  const lnQ = state[offset + ACID_STATE.lnQ] ?? 0;
  derivative.fill(0, offset, offset + ACID_STATE_SIZE);
  derivative[offset + ACID_STATE.lnQ] = lnQ > LN_Q_FULL ? 0 : parameters.culture.growthRatePerHour * atTemperature;
  souringRatesPerHour(state, derivative, parameters, conditions, atTemperature * awakeShare(lnQ), offset);
}

/**
 * The same rates but for the waking up, given how much of their best the cells do at this warmth, awake as they are; writes
 * only the first `changingPlaces`.
 */
export function souringRatesPerHour(
  state: Float64Array,
  derivative: Float64Array,
  parameters: AcidParameters,
  conditions: AcidConditions,
  vigour: number,
  offset: number,
): void {
  const culture = parameters.culture;
  const rows = parameters.buffer.rows;
  const cells = state[offset + ACID_STATE.cellsPerL] ?? 0;
  const curdPH = state[offset + ACID_STATE.curdPH] ?? 0;
  const curdLactose = Math.max(state[offset + ACID_STATE.curdLactoseMM] ?? 0, 0);
  const curdLactate = Math.max(state[offset + ACID_STATE.curdLactateMM] ?? 0, 0);
  const curdStrength = state[offset + ACID_STATE.curdStrength] ?? 1;
  const curdL = Math.max(conditions.curdSerumL, 1e-6);
  const drained = conditions.phase === 'drained';

  // Table row of the curd's pH.
  let position = (curdPH - TABLE_LOW_PH) * TABLE_ROWS_PER_PH;
  position = position < 0 ? 0 : position > TABLE_LAST_ROW - 1e-9 ? TABLE_LAST_ROW - 1e-9 : position;
  let row = position | 0;
  let part = position - row;
  row *= TABLE_STRIDE;
  const casein = lerp(rows, row, part);
  const serum = lerp(rows, row + 1, part);
  const colloidal = lerp(rows, row + 2, part);
  const lactic = lerp(rows, row + 3, part);
  const protonated = lerp(rows, row + 4, part);

  const lactoseInSerum = curdLactose / curdL;
  const lactateInSerum = curdLactate / curdL;
  const fed = lactoseInSerum / (LACTOSE_HALF_MM + lactoseInSerum);
  const unpoisoned = Math.max(0, 1 - (lactateInSerum * protonated) / UNDISSOCIATED_LIMIT_MM);
  const room = Math.max(0, 1 - cells / culture.cellsMaxPerL);
  const growthPH = pHFactor(curdPH, culture.growthPHMin, culture.growthPHOpt);
  const acidPH = pHFactor(curdPH, culture.acidPHStop, culture.acidPHOpt);
  const common = vigour * unpoisoned * fed * conditions.saltFactor * cells;
  const free = culture.growthFreeFraction;
  const made =
    (drained ? parameters.curdRateFactor : 1) *
    culture.acidRateMmolPerCfuHour *
    common *
    ((1 - free) * growthPH * room + free * acidPH);

  let lactoseOut = 0;
  let lactateOut = 0;
  let protonsIn = 0;
  if (hasWhey(conditions)) {
    const wheyL = conditions.wheyL;
    const wheyPH = state[offset + ACID_STATE.wheyPH] ?? 0;
    const wheyLactose = Math.max(state[offset + ACID_STATE.wheyLactoseMM] ?? 0, 0);
    const wheyLactate = Math.max(state[offset + ACID_STATE.wheyLactateMM] ?? 0, 0);
    const wheyStrength = state[offset + ACID_STATE.wheyStrength] ?? 1;
    const wheyCells = state[offset + ACID_STATE.wheyCellsPerL] ?? 0;
    const serumProtonsCurd = lerp(rows, row + 5, part);
    position = (wheyPH - TABLE_LOW_PH) * TABLE_ROWS_PER_PH;
    position = position < 0 ? 0 : position > TABLE_LAST_ROW - 1e-9 ? TABLE_LAST_ROW - 1e-9 : position;
    row = position | 0;
    part = position - row;
    row *= TABLE_STRIDE;
    const serumWhey = lerp(rows, row + 1, part);
    const lacticWhey = lerp(rows, row + 3, part);
    const serumProtonsWhey = lerp(rows, row + 5, part);

    const flow = Math.min(
      parameters.exchangePerHour * curdL,
      (EXCHANGE_CAP_PER_HOUR * curdL * wheyL) / (curdL + wheyL),
    );
    lactateOut = flow * (lactateInSerum - wheyLactate / wheyL);
    lactoseOut = flow * (lactoseInSerum - wheyLactose / wheyL);
    const strengthOut = flow * (curdStrength - wheyStrength);
    const protonsOut =
      flow *
      (curdStrength * serumProtonsCurd -
        wheyStrength * serumProtonsWhey -
        (curdStrength - wheyStrength) * parameters.serumProtonsAtStart);
    protonsIn = -protonsOut;
    const growthWhey = vigour * conditions.saltFactor * pHFactor(wheyPH, culture.growthPHMin, culture.growthPHOpt);
    const madeInWhey = culture.acidRateMmolPerCfuHour * wheyCells * growthWhey;
    const wheyCapacity = parameters.bufferFactor * (wheyL * wheyStrength * serumWhey + wheyLactate * lacticWhey);
    derivative[offset + ACID_STATE.curdStrength] = -strengthOut / curdL;
    derivative[offset + ACID_STATE.wheyPH] = -(madeInWhey + protonsOut) / Math.max(wheyCapacity, 1e-6);
    derivative[offset + ACID_STATE.wheyLactoseMM] = lactoseOut - madeInWhey / culture.lactatePerLactose;
    derivative[offset + ACID_STATE.wheyLactateMM] = madeInWhey + lactateOut;
    derivative[offset + ACID_STATE.wheyStrength] = strengthOut / wheyL;
    derivative[offset + ACID_STATE.wheyCellsPerL] = culture.growthRatePerHour * growthWhey * wheyCells;
  }

  const dissolving = drained ? parameters.drainedDissolvedFraction : 1;
  const capacity =
    parameters.bufferFactor * (casein + curdL * curdStrength * serum + curdLactate * lactic + dissolving * colloidal);
  derivative[offset + ACID_STATE.cellsPerL] = culture.growthRatePerHour * common * growthPH * room;
  derivative[offset + ACID_STATE.curdPH] = -(made * (1 - protonated) + protonsIn) / capacity;
  derivative[offset + ACID_STATE.curdLactoseMM] = -made / culture.lactatePerLactose - lactoseOut;
  derivative[offset + ACID_STATE.curdLactateMM] = made - lactateOut;
}

const lerp = (rows: Float64Array, index: number, part: number): number => {
  const below = rows[index] ?? 0;
  return below + part * ((rows[index + TABLE_STRIDE] ?? 0) - below);
};
