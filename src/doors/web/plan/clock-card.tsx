import { useMemo, type ReactNode } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import { stepsOnClock } from '../timeline/steps-on-clock.ts';
import { layoutTimeline } from '../timeline/timeline-layout.ts';
import { Timeline } from '../timeline/timeline.tsx';

const PX_PER_MIN = 2.2;
const LABEL_GAP_PX = 30;

/** The day on the clock: every step hung on round clock times, hands and waiting told apart by width. */
export function ClockCard({
  plan,
  forecast,
  zeroAt,
  now,
}: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly zeroAt: number;
  readonly now: number;
}): ReactNode {
  const { say, write } = useReader();
  const steps = useMemo(() => stepsOnClock({ plan, forecast, zeroAt }), [plan, forecast, zeroAt]);
  const layout = useMemo(
    () =>
      layoutTimeline({
        steps,
        nowAt: null,
        utcOffsetMin: -new Date(zeroAt).getTimezoneOffset(),
        pxPerMin: PX_PER_MIN,
        labelGapPx: LABEL_GAP_PX,
      }),
    [steps, zeroAt],
  );
  const last = steps.at(-1);
  const looks = new Map(forecast.steps.map((step) => [step.stepId, step.looksMin]));
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
        detail={(stepId) => {
          const [first, next] = looks.get(stepId) ?? [];
          if (first === undefined || !Number.isFinite(first)) return null;
          const at = (minutes: number): string => write.clock(zeroAt + minutes * 60_000);
          return (
            <span className="plan-note clock-look">
              {next === undefined || !Number.isFinite(next)
                ? say('plan:clock.look', { first: at(first) })
                : say('plan:clock.lookAgain', { first: at(first), next: at(next) })}
            </span>
          );
        }}
      />
    </Card>
  );
}
