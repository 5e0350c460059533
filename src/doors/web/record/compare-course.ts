import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { Spread } from '../../../numbers/stats.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { momentMin, plannedMomentMin, type Alignment } from './compare-moment.ts';

/** A value and, where it is not read but worked out, where it lies 9 times in 10. */
export interface Figure {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly isWorkedOut: boolean;
}

/** What one batch comes to beside its course. */
export type FigureName = 'cheeseGPerL' | 'curdGPerL' | 'moisturePercent' | 'saltPercent' | 'pHAtStretch';

/** Where a step stands in a batch: minutes after the common moment at its end, and how long it took. */
export interface StepEnd extends Figure {
  readonly stepId: string;
  readonly tookMin: number;
}

export interface CoursePoint {
  readonly atMin: number;
  readonly value: number;
}

/** One batch, or its plan, as it is laid beside others: everything in minutes after the moment that they share. */
export interface Course {
  readonly id: string;
  readonly label: string;
  readonly isPlan: boolean;
  /** pH over time. */
  readonly points: readonly CoursePoint[];
  /** True where the line is the forecast run again, because there are too few readings. */
  readonly isWorkedOut: boolean;
  readonly ends: readonly StepEnd[];
  readonly figures: Readonly<Partial<Record<FigureName, Figure>>>;
}

/** Fewer readings than this are no line: our own choice. */
export const LEAST_READINGS = 3;
/** A line that is worked out is drawn through a point every so many minutes. */
const EVERY_MIN = 10;
/** A reading within this many minutes of the stretch counts as its pH (common practice, no source). */
const NEAR_MIN = 20;

/**
 * The course of a batch.
 * @param input.forecast the sums with all that is known of it; null while they run
 * @returns null where the batch does not have the moment that all are laid on
 */
export function courseOf(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly alignment: Alignment;
  readonly label: string;
}): Course | null {
  const { record, plan, forecast, alignment, label } = input;
  const fromMin = momentMin({ record, plan, alignment });
  if (fromMin === null) return null;
  const minuteOf = (at: number): number => (at - record.zeroAt) / 60_000 - fromMin;
  const read = record.readings
    .filter(({ quantity, sample }) => quantity === 'pH' && (sample === 'milk' || sample === 'curd'))
    .map(({ at, value }) => ({ atMin: minuteOf(at), value }));
  const isWorkedOut = read.length < LEAST_READINGS;
  return {
    id: record.batchId,
    label,
    isPlan: false,
    points: isWorkedOut ? (forecast === null ? [] : foreseenPoints(forecast, fromMin)) : read,
    isWorkedOut,
    ends: record.steps.flatMap(({ stepId, startedAt, endedAt }) => {
      if (startedAt === null || endedAt === null) return [];
      const value = minuteOf(endedAt);
      return [{ stepId, value, low: value, high: value, isWorkedOut: false, tookMin: (endedAt - startedAt) / 60_000 }];
    }),
    figures: figuresOf({ record, plan, forecast }),
  };
}

/** The plan of a batch as its own measure: what was foreseen when it was opened. */
export function plannedCourse(input: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly zeroAt: number;
  readonly alignment: Alignment;
  readonly label: string;
}): Course | null {
  const { plan, forecast, zeroAt, alignment, label } = input;
  const fromMin = plannedMomentMin({ plan, forecast, zeroAt, alignment });
  if (fromMin === null) return null;
  const { outcome } = forecast;
  const perL = (kg: Spread): Spread => scaled(kg, 1000 / plan.setup.milk.volumeL);
  return {
    id: 'plan',
    label,
    isPlan: true,
    points: foreseenPoints(forecast, fromMin),
    isWorkedOut: true,
    ends: forecast.steps.flatMap(({ stepId, startMin, endMin }) =>
      Number.isFinite(endMin.p50) && Number.isFinite(endMin.p95)
        ? [{ stepId, ...worked(scaled(endMin, 1, -fromMin)), tookMin: endMin.p50 - startMin.p50 }]
        : [],
    ),
    figures: known({
      cheeseGPerL: worked(perL(outcome.cheeseKg)),
      curdGPerL: worked(perL(outcome.curdKg)),
      moisturePercent: worked(outcome.moisturePercent),
      saltPercent: worked(outcome.saltPercent),
      pHAtStretch: worked(outcome.pHAtStretch),
    }),
  };
}

function figuresOf(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
}): Course['figures'] {
  const { record, plan, forecast } = input;
  const weighed = (what: 'cheese' | 'drained-curd'): Figure | null => {
    const one = record.weighed.findLast((weight) => weight.what === what);
    return one === undefined ? null : read((one.massKg * 1000) / plan.setup.milk.volumeL);
  };
  return known({
    cheeseGPerL: weighed('cheese'),
    curdGPerL: weighed('drained-curd'),
    moisturePercent: forecast === null ? null : worked(forecast.outcome.moisturePercent),
    saltPercent: forecast === null ? null : worked(forecast.outcome.saltPercent),
    pHAtStretch: pHAtStretch({ record, plan }),
  });
}

function pHAtStretch({ record, plan }: { readonly record: BatchRecord; readonly plan: Plan }): Figure | null {
  const stretch = plan.steps.find(({ verb }) => verb === 'stretch');
  const startedAt = record.steps.find(({ stepId }) => stepId === stretch?.id)?.startedAt ?? null;
  if (startedAt === null) return null;
  const near = record.readings
    .filter(({ quantity, sample }) => quantity === 'pH' && sample === 'curd')
    .map(({ at, value }) => ({ value, off: Math.abs(at - startedAt) / 60_000 }))
    .filter(({ off }) => off <= NEAR_MIN)
    .sort((a, b) => a.off - b.off)[0];
  return near === undefined ? null : read(near.value);
}

function foreseenPoints(forecast: Forecast, fromMin: number): CoursePoint[] {
  const points: CoursePoint[] = [];
  forecast.gridMin.forEach((minute, index) => {
    const value = forecast.bands.pH.p50[index] ?? Number.NaN;
    const last = points.at(-1)?.atMin ?? -Infinity;
    if (Number.isFinite(value) && minute - fromMin >= last + EVERY_MIN) points.push({ atMin: minute - fromMin, value });
  });
  return points;
}

const read = (value: number): Figure => ({ value, low: value, high: value, isWorkedOut: false });
const worked = ({ p5, p50, p95 }: Spread): Figure => ({ value: p50, low: p5, high: p95, isWorkedOut: true });
const scaled = ({ p5, p25, p50, p75, p95 }: Spread, by: number, plus = 0): Spread => ({
  p5: p5 * by + plus,
  p25: p25 * by + plus,
  p50: p50 * by + plus,
  p75: p75 * by + plus,
  p95: p95 * by + plus,
});

/** Only what there is a number for. */
function known(figures: Readonly<Record<FigureName, Figure | null>>): Course['figures'] {
  return Object.fromEntries(Object.entries(figures).filter(([, figure]) => figure !== null && Number.isFinite(figure.value))); // prettier-ignore
}
