import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import { Quantity } from '../look/quantity.tsx';
import { Was } from '../look/was.tsx';
import type { AmountRow } from './amounts-view.ts';

/** What to weigh and measure: grams and millilitres large, the packet's share, drops and spoons beneath. */
export function AmountsCard({
  rows,
  before,
}: {
  readonly rows: readonly AmountRow[];
  /** As they were before what is being tried; none where nothing is. */
  readonly before: readonly AmountRow[];
}): ReactNode {
  const { say } = useReader();
  return (
    <Card aria-labelledby="amounts">
      <h2 id="amounts">{say('plan:amounts.title')}</h2>
      <dl className="plan-rows">
        {rows.map((row) => (
          <div key={row.id} className="plan-row">
            <dt>
              {row.name} <span className="plan-note">{say('plan:amounts.for', { step: row.forStep })}</span>
            </dt>
            <dd>
              <span>
                <Quantity written={row.written} size="large" />
                {row.other === null ? null : <span className="plan-note pair"> ({row.other})</span>}
              </span>
              <Was now={row.written.text} before={before.find(({ id }) => id === row.id)?.written.text ?? null} />
              {row.kitchen === null ? null : <span>{row.kitchen}</span>}
              {row.span === null ? null : <span className="plan-note">{row.span}</span>}
              {row.hint === null ? null : <span className="plan-note">{row.hint}</span>}
              {row.waitsForCurd ? <span className="plan-note">{say('plan:amounts.waits')}</span> : null}
            </dd>
          </div>
        ))}
      </dl>
    </Card>
  );
}
