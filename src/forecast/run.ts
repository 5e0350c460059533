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

/** An empty run for a plan of so many steps. */
export function emptyRun(sizes: { steps: number; readings: number; judgements: number }): MemberRun {
  const perStep = (): Float64Array => new Float64Array(sizes.steps).fill(Number.NaN);
  return {
    startMin: perStep(),
    endMin: perStep(),
    leftMin: perStep(),
    endPH: perStep(),
    endTemperatureC: perStep(),
    heatOffC: perStep(),
    phase: new Uint8Array(sizes.steps),
    trace: new Float32Array(TRACED.length * TRACE_POINTS).fill(Number.NaN),
    figures: new Float64Array(FIGURES.length).fill(Number.NaN),
    expected: new Float64Array(sizes.readings).fill(Number.NaN),
    expectedSd: new Float64Array(sizes.readings).fill(Number.NaN),
    innovations: new Float64Array(sizes.readings + sizes.judgements).fill(Number.NaN),
    logLikelihoods: new Float64Array(sizes.readings + sizes.judgements),
  };
}
