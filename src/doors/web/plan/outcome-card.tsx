import type { ReactNode } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import { useReader } from '../device/reader.tsx';
import { RestsLines } from '../forecasting/rests-lines.tsx';
import { Card } from '../look/card.tsx';
import { Quantity } from '../look/quantity.tsx';
import { Was } from '../look/was.tsx';
import type { Say } from '../../../exchange/words.ts';
import type { OutcomeRow, OutcomeView } from './outcome-view.ts';

/** What the make will give, each with the span that nine makes in ten keep. */
export function OutcomeCard({
  view,
  forecast,
  before,
}: {
  readonly view: OutcomeView;
  readonly forecast: Forecast;
  /** What it would have given before what is being tried. */
  readonly before: OutcomeView | null;
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
              <Quantity written={row.written} size="large" />
              <span className="plan-note">{row.span}</span>
              <Was now={told(row, say)} before={toldOf(before, row.id, say)} />
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

const told = (row: OutcomeRow, say: Say): string =>
  say('plan:outcome.told', { about: row.written.text, span: row.span });

function toldOf(view: OutcomeView | null, id: string, say: Say): string | null {
  const row = view?.rows.find((one) => one.id === id);
  return row === undefined ? null : told(row, say);
}
