import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import { measuresView } from './measures-view.ts';

/** The amount in every measure that a kitchen owns. */
export function MeasuresCard({ given }: { readonly given: Readonly<Record<string, unknown>> }): ReactNode {
  const { say, write } = useReader();
  const view = measuresView({ given, say, write });
  if (view.same.length === 0 && view.spoons === null) return null;
  return (
    <Card aria-labelledby="measures">
      <h2 id="measures">{say('bench:measures.same')}</h2>
      <dl className="measures">
        {view.same.map((row) => (
          <div key={row.measure}>
            <dt>{row.measure}</dt>
            <dd className="numerals">{row.amount}</dd>
          </div>
        ))}
      </dl>
      {view.spoons === null || view.spoons.length === 0 ? null : (
        <>
          <h3>{say('bench:measures.spoonsTitle')}</h3>
          <ul className="sum-lines">
            {view.spoons.map((row) => (
              <li key={row.region}>
                {row.region}: {row.words}
                {row.mind === null ? null : <strong className="measures-mind">{row.mind}</strong>}
              </li>
            ))}
          </ul>
        </>
      )}
    </Card>
  );
}
