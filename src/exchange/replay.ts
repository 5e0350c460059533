/** A finished record run again: for every reading and judgement, what was forecast just before it, and what came. */
import type { Band, BandQuantity, Forecast } from '../forecast/forecast.ts';
import { simulate } from '../forecast/simulate.ts';
import type { History, ReadingQuantity } from '../make/history.ts';
import { JUDGEMENT_GRADES } from '../make/judgement.ts';
import type { Plan } from '../make/plan.ts';
import type { BatchRecord } from '../record/batch-record.ts';
import { historyOf } from './history.ts';
import { planOfRecord } from './record-plan.ts';

/** What was foreseen for one note, and how it came. */
export interface Foreseen {
  readonly elapsedMin: number;
  /** `pH`, `temperatureC`, `massKg`, …, or the name of a judgement. */
  readonly what: ReadingQuantity | History['judgements'][number]['judgement'];
  readonly sample: string | null;
  /** A number, or the grade of a judgement. */
  readonly came: number | string;
  /** Where the instrument would read nine times in ten; null where the simulator has no such figure. */
  readonly band: { readonly p5: number; readonly p50: number; readonly p95: number } | null;
  /** Judgements that end a step: of 20 such makes, how many were foreseen to be there by then. */
  readonly readyIn20: number | null;
  /** Whether it came inside what was foreseen; null where nothing was. */
  readonly isInside: boolean | null;
}

export interface Replay {
  readonly batchId: string;
  readonly name: string;
  readonly makeId: string;
  readonly notes: readonly Foreseen[];
  readonly inside: number;
  readonly judged: number;
}

const MEMBERS = 120;
/** A judgement is noted a few minutes off its moment: our own choice. */
const NOTED_WITHIN_MIN = 3;
const Z95 = 1.645;
/** What an instrument adds to the band, standard deviations: a kitchen meter, a probe where it hangs, scales; as `forecast/observe.ts` has them. */
const INSTRUMENT_SD: Readonly<Partial<Record<ReadingQuantity, number>>> = { pH: 0.05, temperatureC: 0.5 };
const SCALE_LN_SD = 0.02;

/**
 * Replays one batch.
 * @throws InputError where the record does not hold the make and the answers it began with
 */
export function replayOf(input: { readonly record: BatchRecord; readonly seed?: number }): Replay {
  const { record } = input;
  const plan = planOfRecord({ record });
  const whole = historyOf({ record, nowAt: Number.MAX_SAFE_INTEGER });
  const notes = [
    ...whole.readings.map((reading) => ({ elapsedMin: reading.elapsedMin, reading, judged: null })),
    ...whole.judgements.map((judged) => ({ elapsedMin: judged.elapsedMin, reading: null, judged })),
  ].sort((a, b) => a.elapsedMin - b.elapsedMin);
  let latest: { readonly atMin: number; readonly forecast: Forecast } | null = null;
  const forecastAt = (atMin: number): Forecast => {
    if (latest?.atMin !== atMin) {
      const then = { plan: planOfRecord({ record, untilAt: record.zeroAt + atMin * 60_000 - 1 }), history: justBefore(record, atMin) }; // prettier-ignore
      latest = { atMin, forecast: simulate({ ...then, members: MEMBERS, seed: input.seed ?? 1 }) };
    }
    return latest.forecast;
  };
  const foreseen = notes.map(({ elapsedMin, reading, judged }): Foreseen => {
    const at = (): Forecast => forecastAt(elapsedMin);
    return reading !== null ? readingForeseen({ reading, at }) : judgementForeseen({ judged, at, plan, elapsedMin });
  });
  const judged = foreseen.filter((note) => note.isInside !== null);
  return {
    batchId: record.batchId,
    name: record.name,
    makeId: plan.make.id,
    notes: foreseen,
    inside: judged.filter((note) => note.isInside === true).length,
    judged: judged.length,
  };
}

/** The facts known just before a moment: nothing that happened, or was told, at it or later. */
export function justBefore(record: BatchRecord, atMin: number): History {
  return { ...historyOf({ record, nowAt: record.zeroAt + atMin * 60_000 - 1 }), nowMin: atMin };
}

function readingForeseen(input: {
  readonly reading: History['readings'][number];
  readonly at: () => Forecast;
}): Foreseen {
  const { reading } = input;
  const { quantity, sample, value, elapsedMin } = reading;
  const band = bandFor(input);
  return {
    elapsedMin,
    what: quantity,
    sample,
    came: value,
    band,
    readyIn20: null,
    isInside: band === null ? null : value >= band.p5 && value <= band.p95,
  };
}

function bandFor(input: {
  readonly reading: History['readings'][number];
  readonly at: () => Forecast;
}): Foreseen['band'] {
  const { reading, at } = input;
  const traced = tracedQuantity(reading);
  if (traced === null && reading.quantity !== 'massKg') return null;
  const forecast = at();
  const { outcome } = forecast;
  const spread =
    traced !== null
      ? bandAt({ band: forecast.bands[traced], gridMin: forecast.gridMin, atMin: reading.elapsedMin })
      : reading.sample === 'curd'
        ? outcome.curdKg
        : outcome.cheeseKg;
  if (![spread.p5, spread.p50, spread.p95].every(Number.isFinite)) return null;
  const sd = reading.quantity === 'massKg' ? SCALE_LN_SD * spread.p50 : (INSTRUMENT_SD[reading.quantity] ?? 0);
  return {
    p5: spread.p50 - Math.hypot(spread.p50 - spread.p5, Z95 * sd),
    p50: spread.p50,
    p95: spread.p50 + Math.hypot(spread.p95 - spread.p50, Z95 * sd),
  };
}

/** Which band over time a reading is held against; weights are held against the outcome, and the room against nothing. */
function tracedQuantity({ quantity, sample }: History['readings'][number]): BandQuantity | null {
  if (quantity === 'pH') return sample === 'whey' ? 'wheyPH' : 'pH';
  if (quantity === 'temperatureC' && (sample === 'milk' || sample === 'curd' || sample === 'whey'))
    return 'temperatureC';
  return null;
}

/** The band at a moment, straight between two points of the grid. */
function bandAt(input: { readonly band: Band; readonly gridMin: readonly number[]; readonly atMin: number }): {
  readonly p5: number;
  readonly p50: number;
  readonly p95: number;
} {
  const { band, gridMin, atMin } = input;
  const after = gridMin.findIndex((minute) => minute >= atMin);
  const high = after === -1 ? gridMin.length - 1 : after;
  const low = Math.max(high - 1, 0);
  const [a = 0, b = 0] = [gridMin[low], gridMin[high]];
  const share = b === a ? 1 : Math.min(Math.max((atMin - a) / (b - a), 0), 1);
  const at = (values: readonly number[]): number => {
    const [from = Number.NaN, to = Number.NaN] = [values[low], values[high]];
    return Number.isNaN(to) ? from : Number.isNaN(from) ? to : from + share * (to - from);
  };
  return { p5: at(band.p5), p50: at(band.p50), p95: at(band.p95) };
}

function judgementForeseen(input: {
  readonly judged: History['judgements'][number];
  readonly at: () => Forecast;
  readonly plan: Plan;
  readonly elapsedMin: number;
}): Foreseen {
  const { judged, elapsedMin } = input;
  const base = { elapsedMin, what: judged.judgement, sample: null, came: judged.grade, band: null } as const;
  const ends = endedBy(input);
  if (ends === null || judged.grade === 'not-sure') return { ...base, readyIn20: null, isInside: null };
  const readyIn20 = ends.dots.filter((minute) => minute <= elapsedMin + NOTED_WITHIN_MIN).length;
  // Ready is a surprise when hardly any make was; not ready when hardly any was still waiting.
  return { ...base, readyIn20, isInside: ends.isReady ? readyIn20 >= 1 : readyIn20 <= 19 };
}

/** The step that this judgement ends, and whether the grade says that it has. */
function endedBy(input: {
  readonly judged: History['judgements'][number];
  readonly plan: Plan;
  readonly at: () => Forecast;
}): { readonly dots: readonly number[]; readonly isReady: boolean } | null {
  const { judged, plan, at } = input;
  const grades: readonly string[] = JUDGEMENT_GRADES[judged.judgement];
  for (const step of plan.steps) {
    for (const condition of step.until.of) {
      if (condition.kind !== 'judgement' || condition.judgement !== judged.judgement) continue;
      const dots = at().steps.find((each) => each.stepId === step.id)?.endDots;
      if (dots === undefined) return null;
      return { dots, isReady: grades.indexOf(judged.grade) >= grades.indexOf(condition.grade) };
    }
  }
  return null;
}
