import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { Problem } from '../../../numbers/validity.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import type { FactRow } from './assumed-view.ts';
import type { Taken } from './lot-says.ts';
import { withFact, type Draft } from './draft.ts';
import type { Narrowing } from './narrowing.ts';
import { FactField } from './fact-field.tsx';
import { canBeConfirmed, problemsAt } from './problem-text.ts';

/** Everything the maker did not say, in its field already: one tap to change, and what would narrow the finish most. */
export function AssumedCard({
  rows,
  taken,
  narrowest,
  draft,
  problems,
  onChange,
}: {
  readonly rows: readonly FactRow[];
  /** What comes from packets, bottles and cup tests. */
  readonly taken: readonly Taken[];
  /** The answer worth asking for, wherever its field stands. */
  readonly narrowest: Narrowing | null;
  readonly draft: Draft;
  readonly problems: readonly Problem[];
  readonly onChange: (draft: Draft) => void;
}): ReactNode {
  const { say, write } = useReader();
  return (
    <Card aria-labelledby="assumed">
      <h2 id="assumed">{say('plan:assumed.title')}</h2>
      <p className="plan-note">{say('plan:assumed.lead')}</p>
      {narrowest === null ? null : (
        <p className="assumed-narrowest">
          {say('plan:assumed.narrowest', {
            fact: say(`plan:facts.${narrowest.path}`),
            move: write.duration(Math.round(narrowest.moveMin / 5) * 5),
          })}
        </p>
      )}
      {taken.map(({ id, title, lines }) => (
        <div key={id} className="assumed-lot">
          <strong>{title}</strong>
          {lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
      ))}
      <p className="assumed-keep">
        <Link href="/bench/lots">{say('lots:title')}</Link> {say('plan:assumed.keepLots')}
      </p>
      <ul className="assumed-list">
        {rows.map((row) => (
          <li key={row.path} className="assumed-row">
            <FactField
              path={row.path}
              fact={row.fact}
              text={row.text}
              error={problemsAt({ path: row.path, problems, draft, units: write.units, say })}
              onChange={(text) => onChange(withFact(draft, row.path, text))}
            />
            {problems
              .filter((problem) => problem.field === row.path && canBeConfirmed(problem))
              .map((problem) => (
                <Button
                  key={problem.field}
                  onClick={() => onChange({ ...draft, confirmed: [...draft.confirmed, row.path] })}
                >
                  {say('plan:problems.confirm', { value: row.text })}
                </Button>
              ))}
            {row.isAssumed || row.isFromLot ? (
              <span className="assumed-tag">{say(row.isAssumed ? 'plan:assumed.tag' : 'plan:assumed.fromLot')}</span>
            ) : (
              <Button kind="quiet" onClick={() => onChange(withFact(draft, row.path, null))}>
                {say('plan:assumed.back')}
              </Button>
            )}
          </li>
        ))}
      </ul>
    </Card>
  );
}
