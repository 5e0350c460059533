import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';

/** What batches are laid on each other by: the rennet, the first pH reading, or the clock on the wall. */
export const ALIGNMENTS = ['rennet', 'firstReading', 'clock'] as const;
export type Alignment = (typeof ALIGNMENTS)[number];

const rennetStep = (plan: Plan): string | undefined =>
  plan.steps.find(({ verb, set }) => verb === 'add' && set.ingredient === 'rennet')?.id;

/** Local midnight before an instant, in minutes from it; negative. */
function midnightMin(at: number): number {
  const day = new Date(at);
  day.setHours(0, 0, 0, 0);
  return (day.getTime() - at) / 60_000;
}

/** The shared moment in minutes from the batch's zero; null where it never came, or was not noted. */
export function momentMin(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly alignment: Alignment;
}): number | null {
  const { record, plan, alignment } = input;
  const minuteOf = (at: number): number => (at - record.zeroAt) / 60_000;
  switch (alignment) {
    case 'rennet': {
      const added = record.added.find(({ ingredient }) => ingredient === 'rennet');
      const at = added?.at ?? record.steps.find(({ stepId }) => stepId === rennetStep(plan))?.endedAt ?? null;
      return at === null ? null : minuteOf(at);
    }
    case 'firstReading': {
      const first = record.readings.find(({ quantity }) => quantity === 'pH');
      return first === undefined ? null : minuteOf(first.at);
    }
    case 'clock':
      return midnightMin(record.zeroAt);
  }
}

/** The same moment of a plan; a plan has no readings, so it is laid on its rennet where those are asked for. */
export function plannedMomentMin(input: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly zeroAt: number;
  readonly alignment: Alignment;
}): number | null {
  const { plan, forecast, zeroAt, alignment } = input;
  if (alignment === 'clock') return midnightMin(zeroAt);
  if (alignment === 'firstReading') return null;
  const end = forecast.steps.find(({ stepId }) => stepId === rennetStep(plan))?.endMin.p50;
  return end === undefined || !Number.isFinite(end) ? null : end;
}
