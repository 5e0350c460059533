import { useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { BatchPlot } from '../chart/batch-plot.tsx';
import { readyBy } from '../chart/dots.ts';
import { useReader } from '../device/reader.tsx';
import { RestsLines } from '../forecasting/rests-lines.tsx';
import { layoutTimeline } from '../timeline/timeline-layout.ts';
import { stepsOnClock } from '../timeline/steps-on-clock.ts';
import { Timeline } from '../timeline/timeline.tsx';
import { useNameGap } from '../timeline/use-name-gap.ts';
import { decisiveStep } from './decisive-step.ts';
import { clockOf, type Telling } from './said.ts';
import { VatButton } from './vat-button.tsx';
import './whole.css';

const LEAVE_STEP_MIN = 15;

/** Here no reading is held against the forecast before it. */
const NOTHING_EXPECTED: ReadonlyMap<string, Forecast> = new Map();

/** The whole make on its time line, the pH as foreseen and read, and twenty dots to count by. */
export function WholeMake({
  record,
  plan,
  forecast,
  planned,
  nowAt,
  utcOffsetMin,
  telling,
  streamId,
  onWhatIf,
  onBack,
}: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly planned: Forecast | null;
  readonly nowAt: number;
  readonly utcOffsetMin: number;
  readonly telling: Telling;
  readonly streamId: string;
  readonly onWhatIf: () => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const labelGapPx = useNameGap(26);
  const steps = stepsOnClock({ plan, forecast, zeroAt: telling.zeroAt });
  const layout = layoutTimeline({ steps, nowAt, utcOffsetMin, pxPerMin: 1.7, labelGapPx, mostLanes: 2 });
  const last = forecast.steps.at(-1);
  const running = steps.find((step) => step.state === 'running');
  const summary = say('vat:whole.summary', { count: steps.length, step: running?.name ?? '', end: last === undefined ? '' : clockOf(telling, last.endMin.p50) }); // prettier-ignore
  const decisive = decisiveStep({ plan, forecast });
  const middle = decisive?.dotsMin[Math.floor(decisive.dotsMin.length / 2)] ?? Infinity;
  const firstMin = Number.isFinite(middle) ? middle : (nowAt - telling.zeroAt) / 60_000 + 60;
  const [movedMin, setMovedMin] = useState<number | null>(null);
  const leaveMin = movedMin ?? quarterAfter({ minute: firstMin, zeroAt: telling.zeroAt, utcOffsetMin });
  const plotted = { record, plan, forecast, range: planned ?? forecast, expected: NOTHING_EXPECTED, nowAt, utcOffsetMin, telling }; // prettier-ignore
  return (
    <section className="whole" aria-labelledby="whole-title">
      <div className="whole-head">
        <h1 id="whole-title">{say('vat:whole.title')}</h1>
        <VatButton className="vat-small" keyHint="I" onAct={onWhatIf}>
          {say('vat:whatIf.title')}
        </VatButton>
      </div>
      <div className="whole-body">
        <Timeline layout={layout} clockText={write.clock} summary={summary} withTimes />
        <div className="whole-plots">
          <BatchPlot quantity="pH" {...plotted} dots={decisive} leaveMin={decisive === null ? null : leaveMin} />
          {decisive === null ? null : (
            <Leave
              dotsMin={decisive.dotsMin}
              label={decisive.label}
              telling={telling}
              byMin={leaveMin}
              onMove={setMovedMin}
            />
          )}
          <BatchPlot quantity="temperatureC" {...plotted} dots={null} />
          <RestsLines forecast={forecast} />
          <Link className="vat-button vat-lesser whole-link" href={`/record/${streamId}`}>
            {say('vat:whole.record')}
          </Link>
          <Link className="vat-button vat-lesser whole-link" href={`/record/${streamId}/instruments`}>
            {say('vat:whole.instruments')}
          </Link>
        </div>
      </div>
      <VatButton className="vat-back" keyHint="Escape" onAct={onBack}>
        {say('vat:action.back')}
      </VatButton>
    </section>
  );
}

/** A round quarter of an hour on the wall, at or after a minute of the batch. */
function quarterAfter(input: {
  readonly minute: number;
  readonly zeroAt: number;
  readonly utcOffsetMin: number;
}): number {
  const zeroLocalMin = input.zeroAt / 60_000 + input.utcOffsetMin;
  return Math.ceil((zeroLocalMin + input.minute) / LEAVE_STEP_MIN) * LEAVE_STEP_MIN - zeroLocalMin;
}

/** "If you must leave at 14:30, 14 of 20 are ready": the line is moved by taps, the count is told in words. */
function Leave({
  dotsMin,
  label,
  telling,
  byMin,
  onMove,
}: {
  readonly dotsMin: readonly number[];
  readonly label: string;
  readonly telling: Telling;
  readonly byMin: number;
  readonly onMove: (byMin: number) => void;
}): ReactNode {
  const { say } = useReader();
  const count = readyBy({ dotsMin, byMin });
  return (
    <div className="leave">
      <p role="status">
        {say('vat:leave.count', { at: clockOf(telling, byMin), ready: count.ready, of: count.of, what: label })}
      </p>
      <VatButton className="vat-small may-look" onAct={() => onMove(byMin - LEAVE_STEP_MIN)}>
        {say('vat:leave.earlier')}
      </VatButton>
      <VatButton className="vat-small may-look" onAct={() => onMove(byMin + LEAVE_STEP_MIN)}>
        {say('vat:leave.later')}
      </VatButton>
    </div>
  );
}
