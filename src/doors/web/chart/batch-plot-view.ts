import type { Band, Forecast } from '../../../forecast/forecast.ts';
import { readingErrorSd } from '../../../forecast/reading-error.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Telling } from '../vat/said.ts';
import type { PlotAim, PlotJudgement, PlotReading } from './forecast-plot.tsx';
import { bandAt } from './band-at.ts';

/** Whiskers span 19 readings in 20. */
const WHISKER_SD = 2;

export type Plotted = 'pH' | 'temperatureC';

/** A batch's course of one quantity, ready to be set: band, readings, judgements and aim. */
export interface BatchPlotView {
  readonly fromMin: number;
  readonly toMin: number;
  readonly low: number;
  readonly high: number;
  readonly gridMin: readonly number[];
  readonly band: Band;
  readonly readings: readonly PlotReading[];
  readonly judgements: readonly PlotJudgement[];
  readonly aim: PlotAim | null;
}

/**
 * What one plot of a batch shows.
 * @param input.forecast whose band is drawn
 * @param input.range forecast that fixes the axes, so that the plot does not rescale as readings come
 * @param input.expected forecasts just before each reading, by event id
 */
export function batchPlotView(input: {
  readonly quantity: Plotted;
  readonly record: Pick<BatchRecord, 'readings' | 'judgements'>;
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly range: Forecast;
  readonly expected: ReadonlyMap<string, Forecast>;
  readonly telling: Telling;
}): BatchPlotView {
  const { quantity, record, plan, forecast, range, telling } = input;
  const minuteOf = (at: number): number => (at - telling.zeroAt) / 60_000;
  const readings = record.readings
    .filter(
      (reading) =>
        reading.quantity === quantity && (quantity === 'pH' || ['milk', 'curd', 'whey'].includes(reading.sample)),
    )
    .map((reading) => {
      const before = input.expected.get(reading.eventId);
      const band = reading.sample === 'whey' && quantity === 'pH' ? 'wheyPH' : quantity;
      const cut = before === undefined ? null : bandAt({ gridMin: before.gridMin, band: before.bands[band], atMin: minuteOf(reading.at) }); // prettier-ignore
      return {
        atMin: minuteOf(reading.at),
        value: reading.value,
        error: WHISKER_SD * readingErrorSd({ quantity, sample: reading.sample, setup: plan.setup }),
        expected: cut?.p50 ?? null,
        suspect: forecast.surprises.some(
          (one) => one.quantity === quantity && Math.abs(one.elapsedMin - minuteOf(reading.at)) < 0.5,
        ),
      };
    });
  const band = forecast.bands[quantity];
  const lastStep = range.steps.findLast((step) => Number.isFinite(step.endMin.p50));
  const toMin = Math.max(
    60,
    horizon(range, quantity) ?? lastStep?.endMin.p50 ?? 60,
    ...readings.map((one) => one.atMin),
  );
  const fromMin = Math.min(0, ...readings.map((one) => one.atMin));
  const span = spanOf([...finite(range.bands[quantity].p5), ...finite(range.bands[quantity].p95), ...readings.map((one) => one.value)], quantity); // prettier-ignore
  return {
    fromMin,
    toMin,
    ...span,
    gridMin: forecast.gridMin,
    band,
    readings,
    judgements: quantity === 'pH' ? judgementsOf({ record, forecast, minuteOf, say: telling.say }) : [],
    aim: quantity === 'pH' ? aimOf({ plan, range, telling }) : null,
  };
}

/** The last minute at which the band still says anything. */
function horizon(forecast: Forecast, quantity: Plotted): number | null {
  const index = forecast.bands[quantity].p50.findLastIndex((value) => Number.isFinite(value));
  return forecast.gridMin[index] ?? null;
}

const finite = (values: readonly number[]): number[] => values.filter((value) => Number.isFinite(value));

function spanOf(values: readonly number[], quantity: Plotted): { low: number; high: number } {
  const step = quantity === 'pH' ? 0.2 : 10;
  const low = values.reduce((least, value) => Math.min(least, value), Infinity);
  const high = values.reduce((most, value) => Math.max(most, value), -Infinity);
  if (!Number.isFinite(low) || !Number.isFinite(high))
    return quantity === 'pH' ? { low: 4.8, high: 6.8 } : { low: 0, high: 60 };
  return { low: Math.floor(low / step + 1e-9) * step, high: Math.ceil(high / step - 1e-9) * step };
}

function judgementsOf(input: {
  readonly record: Pick<BatchRecord, 'readings' | 'judgements'>;
  readonly forecast: Forecast;
  readonly minuteOf: (at: number) => number;
  readonly say: Telling['say'];
}): PlotJudgement[] {
  return input.record.judgements.flatMap((judged) => {
    const atMin = input.minuteOf(judged.at);
    const cut = bandAt({ gridMin: input.forecast.gridMin, band: input.forecast.bands.pH, atMin });
    if (cut === null) return [];
    const key =
      judged.grade === 'not-sure' ? 'vat:judge.notSure.name' : `vat:judge.${judged.judgement}.${judged.grade}.name`;
    return [{ atMin, value: cut.p50, name: input.say(key) }];
  });
}

function aimOf(input: { readonly plan: Plan; readonly range: Forecast; readonly telling: Telling }): PlotAim | null {
  const aim = input.plan.make.aims.find((one) => one.quantity === 'pH');
  if (aim === undefined) return null;
  const step = input.range.steps.find((one) => one.stepId === aim.moment);
  const name = input.plan.steps.find((one) => one.id === aim.moment)?.done ?? '';
  if (step === undefined || !Number.isFinite(step.startMin.p5)) return null;
  const { write } = input.telling;
  return {
    low: aim.low,
    high: aim.high,
    fromMin: step.startMin.p5,
    toMin: Number.isFinite(step.endMin.p95) ? step.endMin.p95 : step.startMin.p5 + 240,
    label: `${name}: ${write.pH(aim.low).number} – ${write.pH(aim.high).number}`,
  };
}
