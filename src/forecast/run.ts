import { positionsOf } from '../numbers/positions.ts';

/** What one member's make leaves behind, in flat arrays so that hundreds fit in memory and sort quickly. */

/** Quantities traced over time, in the order of the trace. */
export const TRACED = ['pH', 'wheyPH', 'temperatureC', 'curdMoisturePercent', 'curdKg', 'saltPercent'] as const;
export type Traced = (typeof TRACED)[number];

/** Minutes between traced points: the drawing's own resolution, not the integration step. */
export const TRACE_EVERY_MIN = 5;
/** Points a trace can hold: sixteen hours. */
export const TRACE_POINTS = 193;

/** Single figures of one make. */
export const FIGURES = [
  'curdKg',
  'cheeseKg',
  'moisturePercent',
  'fatInDryMatterPercent',
  'saltPercent',
  'saltInMoisturePercent',
  'pHAtStretch',
  'wheyL',
  'pieces',
  'wheyDrawnL',
  'wheyDrawnCm',
  'washWaterL',
  'stretchWaterKg',
  'stretchWaterHeatMin',
  'iceKg',
  'coolMin',
  'brineMin',
  'brineKg',
  'brineSaltKg',
  'filledPotKg',
  'flocculationMin',
  'cultureToReadyMin',
  'restMin',
  'staphLogs',
  'minutesToPH54',
  'cheesePerMilkKgPerL',
] as const;
export type Figure = (typeof FIGURES)[number];
export const FIGURE_AT: Readonly<Record<Figure, number>> = positionsOf(FIGURES);

export interface MemberRun {
  /** Minutes since zero, one a step. */
  readonly startMin: Float64Array;
  /** Infinity where the step's end was not reached. */
  readonly endMin: Float64Array;
  /** When the next step began all the same (a rest that failed is given up in the end). */
  readonly leftMin: Float64Array;
  readonly endPH: Float64Array;
  readonly endTemperatureC: Float64Array;
  /** Where the burner was turned off, NaN but for heating steps. */
  readonly heatOffC: Float64Array;
  /** 0 milk, 1 curd in whey, 2 drained, 3 out of the vat; at the step's end. */
  readonly phase: Uint8Array;
  /** TRACED x TRACE_POINTS, NaN where the member has no value. */
  readonly trace: Float32Array;
  readonly figures: Float64Array;
  /** What each reading was expected to be, one a reading of the history; NaN where it says nothing. */
  readonly expected: Float64Array;
  /** Standard deviation of each reading about its expectation. */
  readonly expectedSd: Float64Array;
  /** How far each reading, then each judgement, lies from what this member expected, in its own standard deviations; NaN where it says nothing. */
  readonly innovations: Float64Array;
  /** Log-likelihood of each reading, then of each judgement. */
  readonly logLikelihoods: Float64Array;
}

/** What one member says of the notes, nothing yet. */
export type Noted = Pick<MemberRun, 'expected' | 'expectedSd' | 'innovations' | 'logLikelihoods'>;

export function emptyNotes(sizes: { readings: number; judgements: number }): Noted {
  const notes = sizes.readings + sizes.judgements;
  return {
    expected: new Float64Array(sizes.readings).fill(Number.NaN),
    expectedSd: new Float64Array(sizes.readings).fill(Number.NaN),
    innovations: new Float64Array(notes).fill(Number.NaN),
    logLikelihoods: new Float64Array(notes),
  };
}

/**
 * An empty run for a plan of so many steps. All of it lies in one piece of memory: a dozen small ones for each of hundreds of
 * members cost more than a tenth of a forecast.
 */
export function emptyRun(sizes: { steps: number; readings: number; judgements: number }): MemberRun {
  const { steps, readings } = sizes;
  const notes = readings + sizes.judgements;
  const numbers = 6 * steps + FIGURES.length + 2 * readings + 2 * notes;
  const traced = TRACED.length * TRACE_POINTS;
  const memory = new ArrayBuffer(8 * numbers + 4 * traced + steps);
  const all = new Float64Array(memory, 0, numbers).fill(Number.NaN);
  let used = 0;
  const next = (length: number): Float64Array => all.subarray(used, (used += length));
  return {
    startMin: next(steps),
    endMin: next(steps),
    leftMin: next(steps),
    endPH: next(steps),
    endTemperatureC: next(steps),
    heatOffC: next(steps),
    phase: new Uint8Array(memory, 8 * numbers + 4 * traced, steps),
    trace: new Float32Array(memory, 8 * numbers, traced).fill(Number.NaN),
    figures: next(FIGURES.length),
    expected: next(readings),
    expectedSd: next(readings),
    innovations: next(notes),
    logLikelihoods: next(notes).fill(0),
  };
}
