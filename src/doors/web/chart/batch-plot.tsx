import type { ReactNode } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useReader } from '../device/reader.tsx';
import { clockOf, type Telling } from '../vat/said.ts';
import { batchPlotView, type BatchPlotView, type Plotted } from './batch-plot-view.ts';
import { ForecastPlot } from './forecast-plot.tsx';
import { NumbersTable } from './numbers-table.tsx';
import { bandAt } from './band-at.ts';
import { useWidth } from './use-width.ts';

/** One quantity of a batch over the hours: a sentence, the plot, and the same as numbers. */
export function BatchPlot({
  quantity,
  record,
  plan,
  forecast,
  range,
  expected,
  nowAt,
  utcOffsetMin,
  telling,
  dots,
  leaveMin = null,
  was = null,
}: {
  readonly quantity: Plotted;
  readonly record: Pick<BatchRecord, 'readings' | 'judgements'>;
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly range: Forecast;
  readonly expected: ReadonlyMap<string, Forecast>;
  /** Null where the band is shown as it was foreseen at the opening. */
  readonly nowAt: number | null;
  readonly utcOffsetMin: number;
  readonly telling: Telling;
  readonly dots: { readonly label: string; readonly dotsMin: readonly number[] } | null;
  readonly leaveMin?: number | null;
  /** As it was foreseen before a change, its minute zero so many minutes after this one's. */
  readonly was?: { readonly forecast: Forecast; readonly shiftMin: number } | null;
}): ReactNode {
  const { say, write } = useReader();
  const { ref, widthPx } = useWidth<HTMLDivElement>(640);
  const asked = { quantity, record, plan, expected, telling };
  const before = was === null ? null : wasView(batchPlotView({ ...asked, forecast: was.forecast, range: was.forecast }), was.shiftMin); // prettier-ignore
  const told = framed(batchPlotView({ ...asked, forecast, range }), before);
  const nowMin = nowAt === null ? null : (nowAt - telling.zeroAt) / 60_000;
  // A make that runs over keeps its now-line inside the frame, for as long as that is still this make's day.
  const view = nowMin !== null && nowMin > told.toMin && nowMin < told.toMin + 720 ? { ...told, toMin: nowMin } : told;
  const valueText = (value: number): string =>
    quantity === 'pH' ? write.number(value, 1) : write.degrees(value).number;
  const valueWritten = (value: number): string =>
    quantity === 'pH' ? write.pH(value).number : write.temperature(value).text;
  const summary = say(
    view.readings.length === 0 ? `vat:plot.${quantity}.summaryNone` : `vat:plot.${quantity}.summary`,
    {
      count: view.readings.length,
      first: view.readings[0] === undefined ? '' : valueWritten(view.readings[0].value),
      last: view.readings.at(-1) === undefined ? '' : valueWritten(view.readings.at(-1)?.value ?? 0),
      lastAt: view.readings.at(-1) === undefined ? '' : clockOf(telling, view.readings.at(-1)?.atMin ?? 0),
    },
  );
  const rows = tableTimes(view.fromMin, view.toMin).flatMap((atMin) => {
    const cut = bandAt({ gridMin: view.gridMin, band: view.band, atMin });
    if (cut === null) return [];
    return [[clockOf(telling, atMin), valueWritten(cut.p50), say('vat:plot.span', { low: valueWritten(cut.p5), high: valueWritten(cut.p95) })]]; // prettier-ignore
  });
  const readingRows = view.readings.map((reading) => [clockOf(telling, reading.atMin), say('vat:plot.read', { value: valueWritten(reading.value) }), reading.expected === null ? '' : say('vat:plot.expected', { value: valueWritten(reading.expected) })]); // prettier-ignore
  const judgedRows = view.judgements.map((judged) => [clockOf(telling, judged.atMin), judged.name, '']);
  return (
    <figure className="batch-plot" ref={ref}>
      <figcaption>
        <strong>{say(`vat:plot.${quantity}.title`)}</strong> {summary}{' '}
        {before === null ? null : (
          <span className="pair">
            <span className="plot-ghost-key" />
            {say('app:asItWas')}
          </span>
        )}
      </figcaption>
      <ForecastPlot
        {...view}
        was={before}
        widthPx={Math.max(280, widthPx)}
        heightPx={(quantity === 'pH' ? 300 : 230) + (dots === null ? 0 : 110)}
        nowMin={nowMin}
        summary={summary}
        dotsMin={dots?.dotsMin ?? []}
        dotsLabel={dots === null ? null : say('vat:plot.dots', { what: dots.label })}
        leaveMin={leaveMin}
        zeroAt={telling.zeroAt}
        utcOffsetMin={utcOffsetMin}
        valueText={valueText}
        clockText={write.clock}
        words={{
          above: say('vat:plot.above'),
          below: say('vat:plot.below'),
          half: say('vat:plot.half'),
          now: nowAt === null ? '' : say('vat:plot.now', { at: write.clock(nowAt) }),
          sumsEnd: say('vat:plot.sumsEnd'),
          eachDot: say('vat:plot.eachDot'),
        }}
      />
      <NumbersTable
        summary={say('vat:plot.asNumbers')}
        caption={summary}
        columns={[say('vat:plot.time'), say('vat:plot.middle'), say('vat:plot.nineInTen')]}
        rows={[...rows, ...readingRows, ...judgedRows]}
      />
    </figure>
  );
}

/** A view hung on another minute zero. */
function wasView(view: BatchPlotView, shiftMin: number): BatchPlotView {
  const shifted = (minute: number): number => minute + shiftMin;
  return { ...view, fromMin: shifted(view.fromMin), toMin: shifted(view.toMin), gridMin: view.gridMin.map(shifted) };
}

/** A frame that holds both what is and what was. */
function framed(view: BatchPlotView, was: BatchPlotView | null): BatchPlotView {
  if (was === null) return view;
  return {
    ...view,
    fromMin: Math.min(view.fromMin, was.fromMin),
    toMin: Math.max(view.toMin, was.toMin),
    low: Math.min(view.low, was.low),
    high: Math.max(view.high, was.high),
  };
}

/** Every half hour, and both ends. */
function tableTimes(fromMin: number, toMin: number): number[] {
  const times: number[] = [];
  for (let atMin = fromMin; atMin < toMin; atMin += 30) times.push(atMin);
  return [...times, toMin];
}
