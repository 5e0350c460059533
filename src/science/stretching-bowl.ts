/**
 * Pieces of curd in a real bowl of hot water: the water cools while the heat creeps into the pieces.
 * Conduction by its series in a bath that changes, coupled to the bath by the heat balance; every mode is stepped exactly,
 * so the energy of curd, water and bowl is kept to rounding. Left out: kneading, which carries heat in faster.
 */
import { rootBetween } from '../numbers/roots.ts';
import { requireWithin, type Validity } from '../numbers/validity.ts';
import type { CheeseThermal } from './cheese-thermal.ts';
import { potFor } from './pot.ts';
import { WATER_SPECIFIC_HEAT_KJ_PER_KG_K } from './properties.ts';
import { seriesTerms } from './series.ts';
import { lossAt, lossCurve, type LossCurve } from './vat.ts';

/** Cubes with this edge, or sheets of this thickness. */
export type PieceShape = 'cube' | 'sheet';

export interface BowlInput {
  readonly curdKg: number;
  readonly curdC: number;
  readonly thermal: CheeseThermal;
  readonly pieceMm: number;
  readonly pieceShape?: PieceShape;
  /** Water in each pour; the last one is drained first. */
  readonly waterKg: number;
  readonly waterC: number;
  readonly pours?: number;
  /** Between pours; 3 where not given. */
  readonly minutesPerPour?: number;
  /** After the last pour; 12 where not given. */
  readonly lastMinutes?: number;
  readonly roomC: number;
  readonly loss: LossCurve;
  readonly bowlKJPerK?: number;
}

export interface BowlPoint {
  readonly minute: number;
  readonly waterC: number;
  readonly meanC: number;
  readonly coreC: number;
}

export const PIECE_TRANSFER_W_PER_M2_K = 400; // our own estimate: pieces moved about in hot water
export const MINUTES_PER_POUR = 3; // common practice (no source)
const LAST_MINUTES = 12; // our own choice: by then the bowl only cools
const STEP_S = 1; // our own choice: within 0.02 K of a quarter of it
const POINT_S = 15; // our own choice: a point of the curve every quarter minute
const LEAST_MEAN_SHARE = 1e-4; // our own choice: what a mode must carry of the mean to count in a search for it
const AXIS_ROOTS = 12; // our own choice: later terms are gone after a few seconds

const HERE = 'our own limits: curd in a bowl of hot water';

export const bowlValidity: Validity = {
  curdKg: { low: 0.01, high: 1000, unit: 'kg', source: HERE },
  curdC: { low: 0, high: 75, unit: '°C', source: HERE },
  pieceMm: { low: 2, high: 150, unit: 'mm', source: HERE },
  waterKg: { low: 0.001, high: 20_000, unit: 'kg', source: HERE },
  waterC: { low: 20, high: 100, unit: '°C', source: HERE },
  pours: { low: 1, high: 6, unit: '-', source: HERE },
  roomC: { low: 0, high: 45, unit: '°C', source: HERE },
  minutesPerPour: { low: 0.25, high: 60, unit: 'min', source: HERE },
  lastMinutes: { low: 0.25, high: 120, unit: 'min', source: HERE },
};

/** Decaying modes of a piece: T(x) = T_bath + sum of weight(x) y_k. */
interface Modes {
  readonly ratePerS: Float64Array;
  readonly core: Float64Array;
  readonly mean: Float64Array;
}

function modesOf(input: BowlInput): Modes {
  const halfM = input.pieceMm / 2000;
  const { diffusivityM2PerS, conductivityWPerMK } = input.thermal;
  const terms = seriesTerms({ shape: 'slab', biot: (PIECE_TRANSFER_W_PER_M2_K * halfM) / conductivityWPerMK });
  const axis = Array.from({ length: AXIS_ROOTS }, (_, i) => {
    const weight = terms.coefficients[i] ?? 0;
    return {
      rate: (diffusivityM2PerS * (terms.roots[i] ?? 0) ** 2) / halfM ** 2,
      core: weight,
      mean: weight * (terms.meanFactors[i] ?? 0),
    };
  });
  let list = axis;
  if (input.pieceShape !== 'sheet') {
    // Modes that differ only in the order of their axes fade alike: one stands for its three or six, with their weight.
    list = axis.flatMap((a, i) =>
      axis
        .slice(i)
        .flatMap((b, j) => axis.slice(i + j).map((c) => product(product(a, b), c, orders(a === b, b === c, a === c)))),
    );
  }
  const shown = list.reduce((sum, mode) => sum + mode.mean, 0); // what the cut-off modes lack in the mean is spread over the rest
  return {
    ratePerS: Float64Array.from(list, (mode) => mode.rate),
    core: Float64Array.from(list, (mode) => mode.core),
    mean: Float64Array.from(list, (mode) => mode.mean / shown),
  };
}

/** The modes that carry the mean, for a search that asks for nothing else: a third of the work, within 0.02 K. */
function slowModes(modes: Modes): Modes {
  const kept = Array.from(modes.mean.keys()).filter((i) => (modes.mean[i] ?? 0) > LEAST_MEAN_SHARE);
  const shown = kept.reduce((sum, i) => sum + (modes.mean[i] ?? 0), 0);
  const taken = (of: Float64Array, share = 1): Float64Array => Float64Array.from(kept, (i) => (of[i] ?? 0) / share);
  return { ratePerS: taken(modes.ratePerS), core: taken(modes.core), mean: taken(modes.mean, shown) };
}

interface Mode {
  readonly rate: number;
  readonly core: number;
  readonly mean: number;
}

const product = (a: Mode, b: Mode, times = 1): Mode => ({
  rate: a.rate + b.rate,
  core: times * a.core * b.core,
  mean: times * a.mean * b.mean,
});

/** In how many orders three axes can stand. */
const orders = (isAB: boolean, isBC: boolean, isAC: boolean): number =>
  isAB && isBC ? 1 : isAB || isBC || isAC ? 3 : 6;

const weighted = (weights: Float64Array, y: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < y.length; i++) sum += (weights[i] ?? 0) * (y[i] ?? 0);
  return sum;
};

/**
 * Water, mean and core of curd pieces in a cooling bowl.
 *
 * y_k' = -rate_k y_k - T_bath'; (C_water + C_bowl) T_bath + C_curd mean = E, E' = -UA (T_bath - T_room). Each pour replaces
 * the water; the pieces keep the profile they have.
 *
 * @param input.curdKg  [kg], 0.01 to 1000
 * @param input.curdC  [°C], 0 to 75
 * @param input.pieceMm  edge of a cube or thickness of a sheet [mm], 2 to 150
 * @param input.waterKg  in each pour [kg], 0.001 to 20000
 * @param input.waterC  [°C], 20 to 100
 * @param input.pours  1 to 6
 * @param input.roomC  [°C], 0 to 45
 * @param input.loss  of the open bowl, from `bowlLoss` or `constantLoss`
 * @returns a point every quarter minute
 * Valid: as `bowlValidity`; pieces apart, water moved. Uncertainty: times within 15 %; the core's first seconds within 2 K.
 * @throws InputError naming the field, its value and the range
 * @source conduction series (Çengel, Heat Transfer, Table 4-2, seen) with Duhamel's rule; transfer 400 W/(m2 K) our own estimate
 */
export function bowlCourse(input: BowlInput): BowlPoint[] {
  const { curdKg, curdC, pieceMm, waterKg, waterC, pours, roomC, minutesPerPour, lastMinutes } = input;
  requireWithin(bowlValidity, { curdKg, curdC, pieceMm, waterKg, waterC, pours, roomC, minutesPerPour, lastMinutes });
  return bowlKernel(input, modesOf(input));
}

function bowlKernel(input: BowlInput, modes: Modes): BowlPoint[] {
  const { roomC, loss, waterC } = input;
  const curd = input.curdKg * input.thermal.specificHeatKJPerKgK;
  const bowl = input.bowlKJPerK ?? 0;
  const water = input.waterKg * WATER_SPECIFIC_HEAT_KJ_PER_KG_K;
  const size = modes.ratePerS.length;
  const fade = modes.ratePerS.map((rate) => Math.exp(-rate * STEP_S));
  const gain = modes.ratePerS.map((rate, i) => (1 - (fade[i] ?? 0)) / (rate * STEP_S));
  const coupling = water + bowl + curd - curd * weighted(modes.mean, gain);
  const y = new Float64Array(size);
  let bathC = input.curdC;
  const points: BowlPoint[] = [];
  let second = 0;
  const pours = input.pours ?? 1;
  for (let pour = 0; pour < pours; pour++) {
    const freshC = (water * waterC + bowl * bathC) / (water + bowl);
    for (let k = 0; k < size; k++) y[k] = (y[k] ?? 0) + bathC - freshC;
    bathC = freshC;
    const minutes = pour < pours - 1 ? (input.minutesPerPour ?? MINUTES_PER_POUR) : (input.lastMinutes ?? LAST_MINUTES);
    for (let s = 0; s < Math.round((60 * minutes) / STEP_S); s++) {
      const before = weighted(modes.mean, y);
      for (let k = 0; k < size; k++) y[k] = (y[k] ?? 0) * (fade[k] ?? 0);
      // Exact over the step at the loss of this moment, so that a draughty bowl comes to the room and not past it.
      const share = -Math.expm1((-lossAt(loss, bathC) * STEP_S) / (1000 * coupling));
      const lostKJ = share * coupling * (bathC - roomC);
      const rise = (curd * (before - weighted(modes.mean, y)) - lostKJ) / coupling;
      for (let k = 0; k < size; k++) y[k] = (y[k] ?? 0) - rise * (gain[k] ?? 0);
      bathC += rise;
      second += STEP_S;
      if (second % POINT_S === 0) {
        const meanC = bathC + weighted(modes.mean, y);
        points.push({ minute: second / 60, waterC: bathC, meanC, coreC: bathC + weighted(modes.core, y) });
      }
    }
  }
  return points;
}

/** First minute at which the core is within a kelvin of the target; null when the bowl has cooled before. */
export function minutesUntilCore(input: {
  readonly course: readonly BowlPoint[];
  readonly targetC: number;
}): number | null {
  const wanted = input.targetC - 1;
  const at = input.course.findIndex((point) => point.coreC >= wanted);
  const after = input.course[at];
  if (after === undefined) return null;
  const before = input.course[at - 1];
  if (before === undefined) return after.minute;
  const share = (wanted - before.coreC) / (after.coreC - before.coreC);
  return before.minute + share * (after.minute - before.minute);
}

/**
 * Water in each pour with which the pieces really reach the target on their mean, in this bowl, before it cools.
 *
 * @param input  as `bowlCourse`; its `waterKg` is not used
 * @param input.targetC  of the mean of the curd at its warmest [°C]
 * @returns water in each pour [kg]; null when even ten times the curd would not do
 * Valid: as `bowlValidity`. Uncertainty: 15 %.
 * @throws InputError naming the field, its value and the range
 * @source as `bowlCourse`
 */
export function bowlWaterKg(input: Omit<BowlInput, 'waterKg'> & { readonly targetC: number }): number | null {
  const modes = slowModes(modesOf({ ...input, waterKg: 1 }));
  const peak = (waterKg: number): number =>
    bowlKernel({ ...input, waterKg }, modes).reduce((most, point) => Math.max(most, point.meanC), input.curdC);
  requireWithin(bowlValidity, {
    curdKg: input.curdKg,
    pieceMm: input.pieceMm,
    waterC: input.waterC,
    pours: input.pours,
  });
  const low = 0.01 * input.curdKg;
  const high = 10 * input.curdKg;
  if (peak(high) < input.targetC) return null;
  if (peak(low) >= input.targetC) return low;
  return rootBetween({ f: (kg) => peak(kg) - input.targetC, low, high, tolerance: 1e-3 * input.curdKg });
}

const BOWL_MM_AT = 280; // common practice (no source): a 28 cm bowl for 2.5 kg of curd and water
const BOWL_KG_AT = 2.5; // as above

/** Loss of an open, wide steel bowl with so much in it: the vat's own balance. */
export function bowlLoss(input: { readonly contentsKg: number; readonly roomC: number }): LossCurve {
  const pot = potFor({
    capacityL: Math.max(2 * input.contentsKg, 0.5),
    insideMm: BOWL_MM_AT * Math.cbrt(input.contentsKg / BOWL_KG_AT),
  });
  return lossCurve({ pot, volumeL: Math.max(input.contentsKg, 0.5), roomC: input.roomC, keeping: 'open' });
}
