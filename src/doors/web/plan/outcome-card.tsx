import type { ReactNode } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import { useReader } from '../device/reader.tsx';
import { RestsLines } from '../forecasting/rests-lines.tsx';
import { Card } from '../look/card.tsx';
import { Quantity } from '../look/quantity.tsx';
import { Changed } from './changed.tsx';
import type { OutcomeView } from './outcome-view.ts';

/** What the make will give, each with the span that nine makes in ten keep. */
export function OutcomeCard({
  view,
  forecast,
}: {
  readonly view: OutcomeView;
  readonly forecast: Forecast;
}): ReactNode {
  const { say } = useReader();
  return (
    <Card aria-labelledby="outcome">
      <h2 id="outcome">{say('plan:outcome.title')}</h2>
      <dl className="plan-rows">
        {view.rows.map((row) => (
          <div key={row.id} className="plan-row">
            <dt>{row.name}</dt>
            <dd>
              <Changed text={row.written.text}>
                <Quantity written={row.written} size="large" />
              </Changed>
              <span className="plan-note">{row.span}</span>
            </dd>
          </div>
        ))}
      </dl>
      {view.cultureToReady === null ? null : <p className="plan-note">{view.cultureToReady}</p>}
      {view.ready === null ? null : <p className="plan-note">{view.ready}</p>}
      <RestsLines forecast={forecast} />
    </Card>
  );
}
