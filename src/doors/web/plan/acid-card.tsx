import { useMemo, type ReactNode } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import { BatchPlot } from '../chart/batch-plot.tsx';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import type { PlanBefore } from './held-plan.ts';

/** Nothing has been read of a plan. */
const NO_NOTES = { readings: [], judgements: [] } as const;
const NOTHING_EXPECTED: ReadonlyMap<string, Forecast> = new Map();

/** How the milk and the curd sour over the hours, and how they would have before a change. */
export function AcidCard({
  plan,
  forecast,
  zeroAt,
  before,
}: {
  readonly plan: Plan;
  readonly forecast: Forecast;
  readonly zeroAt: number;
  readonly before: PlanBefore | null;
}): ReactNode {
  const { say, write } = useReader();
  const telling = useMemo(() => ({ say, write, zeroAt }), [say, write, zeroAt]);
  const was = before === null || before.schedule === null ? null : { forecast: before.forecast, shiftMin: (before.schedule.zeroAt - zeroAt) / 60_000 }; // prettier-ignore
  return (
    <Card aria-labelledby="acid" className="acid-card">
      <h2 id="acid">{say('plan:acid.title')}</h2>
      <BatchPlot
        quantity="pH"
        record={NO_NOTES}
        plan={plan}
        forecast={forecast}
        range={forecast}
        expected={NOTHING_EXPECTED}
        nowAt={null}
        utcOffsetMin={-new Date(zeroAt).getTimezoneOffset()}
        telling={telling}
        dots={null}
        was={was}
      />
    </Card>
  );
}
