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
  'enteringMoisturePercent', // as it goes into its brine, or into the room where it ages
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
  /** Of what is in the pot or the form; of the cheese once it is out. */
  readonly endMoisturePercent: Float64Array;
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

/** How much a plan and its notes ask a run to hold. */
export interface RunSizes {
  readonly steps: number;
  readonly readings: number;
  readonly judgements: number;
}

const TRACED_POINTS = TRACED.length * TRACE_POINTS;
const notesIn = ({ readings, judgements }: RunSizes): number => readings + judgements;
const numbersIn = (sizes: RunSizes): number =>
  7 * sizes.steps + FIGURES.length + 2 * sizes.readings + 2 * notesIn(sizes);

/** Bytes that a run takes: whole numbers of eight, so that runs can stand in one row. */
export const runBytes = (sizes: RunSizes): number =>
  8 * Math.ceil((8 * numbersIn(sizes) + 4 * TRACED_POINTS + sizes.steps) / 8);

/**
 * An empty run for a plan of so many steps. All of it lies in one piece of memory: a dozen small ones for each of hundreds of
 * members cost more than a tenth of a forecast.
 * @param memory  where to put it, from byte `from` on: members run elsewhere come back in one piece (`parts.ts`)
 */
export function emptyRun(
  sizes: RunSizes,
  memory: ArrayBufferLike = new ArrayBuffer(runBytes(sizes)),
  from = 0,
): MemberRun {
  const run = runIn(sizes, memory, from);
  new Float64Array(memory, from, numbersIn(sizes)).fill(Number.NaN);
  run.trace.fill(Number.NaN);
  run.phase.fill(0);
  run.logLikelihoods.fill(0);
  return run;
}

/** The run that lies in a piece of memory from byte `from` on. */
export function runIn(sizes: RunSizes, memory: ArrayBufferLike, from: number): MemberRun {
  const { steps, readings } = sizes;
  const notes = notesIn(sizes);
  let used = from;
  const next = (length: number): Float64Array => {
    const values = new Float64Array(memory, used, length);
    used += 8 * length;
    return values;
  };
  return {
    startMin: next(steps),
    endMin: next(steps),
    leftMin: next(steps),
    endPH: next(steps),
    endTemperatureC: next(steps),
    heatOffC: next(steps),
    endMoisturePercent: next(steps),
    figures: next(FIGURES.length),
    expected: next(readings),
    expectedSd: next(readings),
    innovations: next(notes),
    logLikelihoods: next(notes),
    trace: new Float32Array(memory, used, TRACED_POINTS),
    phase: new Uint8Array(memory, used + 4 * TRACED_POINTS, steps),
  };
}
