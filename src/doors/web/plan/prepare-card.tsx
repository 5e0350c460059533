import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import type { PreparationRow } from './preparations-view.ts';
import type { ShoppingView } from './shopping-view.ts';

/** What to start while something else runs, on the clock. */
export function PrepareCard({ rows }: { readonly rows: readonly PreparationRow[] }): ReactNode {
  const { say } = useReader();
  return (
    <Card aria-labelledby="prepare">
      <h2 id="prepare">{say('plan:prepare.title')}</h2>
      <p className="plan-note">{say('plan:prepare.lead')}</p>
      <ol className="prepare-list">
        {rows.map((row) => (
          <li key={row.id}>
            <span className="prepare-when">
              <time className="numerals">{row.clock}</time>
            </span>
            <span>
              {row.what}
              {row.amount === null ? null : <strong className="pair"> {row.amount}</strong>}{' '}
              <span className="plan-note prepare-for">{say('plan:prepare.for', { step: row.forStep })}</span>
              {row.late === null ? null : <span className="prepare-late">{row.late}</span>}
            </span>
          </li>
        ))}
      </ol>
    </Card>
  );
}

/** What must be in the house, with the words that stand on the carton. */
export function ShoppingCard({ view }: { readonly view: ShoppingView }): ReactNode {
  const { say } = useReader();
  return (
    <Card aria-labelledby="shopping">
      <h2 id="shopping">{say('plan:shopping.title')}</h2>
      <ul className="shopping-list">
        {view.items.map((item) => (
          <li key={item.id}>{item.text}</li>
        ))}
      </ul>
      <p className="shopping-whole">
        <Link href="/plan/buying">{say('buying:open')}</Link>
      </p>
      <div className="shopping-words">
        <div>
          <h3>{say('plan:shopping.buy')}</h3>
          <ul className="shopping-carton">
            {view.buy.map((word) => (
              <li key={word}>{word}</li>
            ))}
          </ul>
        </div>
        <div>
          <h3>{say('plan:shopping.avoid')}</h3>
          <ul className="shopping-carton shopping-avoid">
            {view.avoid.map((word) => (
              <li key={word}>{word}</li>
            ))}
          </ul>
        </div>
      </div>
    </Card>
  );
}
