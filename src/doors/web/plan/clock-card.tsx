import { useMemo, type ReactNode } from 'react';
import { Link } from 'wouter';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import { gaugeHref } from '../print/gauge-view.ts';
import type { PlanBefore } from './held-plan.ts';
import { plannedSteps } from './planned-steps.ts';
import { layoutTimeline } from '../timeline/timeline-layout.ts';
import { Timeline } from '../timeline/timeline.tsx';
import { useNameGap } from '../timeline/use-name-gap.ts';

const PX_PER_MIN = 2.2;
const ROW_PX = 30;

/** The day on the clock: every step hung on round clock times, hands and waiting told apart by width. */
export function ClockCard({
  plan,
  forecast,
  zeroAt,
  now,
  before,
}: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly zeroAt: number;
  readonly now: number;
  /** The plan before what is being tried; drawn behind where it is the same cheese. */
  readonly before: PlanBefore | null;
}): ReactNode {
  const { say, write } = useReader();
  const labelGapPx = useNameGap(ROW_PX);
  const steps = useMemo(() => plannedSteps({ plan, forecast, zeroAt }), [plan, forecast, zeroAt]);
  const was = useMemo(
    () =>
      before === null || before.schedule === null || before.plan.make.id !== plan.make.id
        ? undefined
        : plannedSteps({ plan: before.plan, forecast: before.forecast, zeroAt: before.schedule.zeroAt }),
    [before, plan.make.id],
  );
  const layout = useMemo(
    () =>
      layoutTimeline({
        steps,
        was,
        nowAt: null,
        utcOffsetMin: -new Date(zeroAt).getTimezoneOffset(),
        pxPerMin: PX_PER_MIN,
        labelGapPx,
      }),
    [steps, was, zeroAt, labelGapPx],
  );
  const last = steps.at(-1);
  return (
    <Card aria-labelledby="clock" className="clock-card">
      <h2 id="clock">{say('plan:clock.title')}</h2>
      <p className="plan-note">{say('plan:clock.legend')}</p>
      <Timeline
        layout={layout}
        clockText={write.clock}
        withTimes
        summary={say('plan:clock.summary', {
          name: plan.make.name,
          start: write.clock(zeroAt),
          end: write.clock(last?.endAt ?? now),
          count: steps.length,
        })}
      />
      <p>
        <Link href={gaugeHref(plan)}>{say('labels:gauge.open')}</Link> ·{' '}
        <Link href="/paper/plan">{say('paper:open')}</Link> ·{' '}
        <Link href={`/share/${plan.make.id}`}>{say('share:open')}</Link>
      </p>
    </Card>
  );
}
