import { memo, type ReactNode } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import { useReader } from '../device/reader.tsx';
import { stepsOnClock } from '../timeline/steps-on-clock.ts';
import { layoutTimeline } from '../timeline/timeline-layout.ts';
import { Timeline } from '../timeline/timeline.tsx';
import { useTextScale } from '../look/use-text-scale.ts';
import { useWidth } from '../chart/use-width.ts';
import { clockOf, type Telling } from './said.ts';
import { utcOffsetMin } from './utc-offset.ts';

/** The time line at the left edge of a tablet: the content moves, the now-line stands at a quarter of the height. */
export const VatTimeline = memo(function VatTimeline({
  plan,
  forecast,
  telling,
  nowAt,
}: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly telling: Telling;
  readonly nowAt: number;
}): ReactNode {
  const { say, write } = useReader();
  const { ref, heightPx } = useWidth<HTMLDivElement>(240, 560);
  const scale = useTextScale();
  const steps = stepsOnClock({ plan, forecast, zeroAt: telling.zeroAt });
  const layout = layoutTimeline({
    steps,
    nowAt,
    utcOffsetMin: utcOffsetMin(nowAt),
    pxPerMin: 2.2,
    labelGapPx: 24 * scale,
    mostLanes: 2,
  });
  const running = steps.find((step) => step.state === 'running');
  const last = forecast.steps.at(-1);
  const summary = say('vat:whole.summary', { count: steps.length, step: running?.name ?? '', end: last === undefined ? '' : clockOf(telling, last.endMin.p50) }); // prettier-ignore
  return (
    <div className="vat-timeline" ref={ref}>
      <Timeline layout={layout} clockText={write.clock} summary={summary} windowPx={heightPx} />
    </div>
  );
});
