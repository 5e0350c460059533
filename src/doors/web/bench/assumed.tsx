import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import type { AssumedView } from './assumed-view.ts';
import { Blank } from './blank.tsx';
import { withText } from './sum-draft.ts';
import type { SumState } from './sum-state.ts';

/** What was taken for granted, in its field already: one tap changes it, one gives it back. */
export function Assumed({ state, view }: { readonly state: SumState; readonly view: AssumedView }): ReactNode {
  const { say } = useReader();
  if (view.rows.length === 0 && view.lines.length === 0) return null;
  return (
    <Card aria-labelledby="sum-assumed">
      <h2 id="sum-assumed">{say('bench:more.title')}</h2>
      {view.rows.length === 0 ? null : (
        <>
          <p className="sum-note">{say('bench:more.lead')}</p>
          <ul className="assumed-fields">
            {view.rows.map((row) => (
              <li key={row.field.path}>
                <Blank
                  state={state}
                  field={row.field}
                  text={row.text}
                  hint={row.hint ?? undefined}
                  hideLabel={false}
                  onText={(text) => state.change(withText({ draft: state.draft, path: row.field.path, text }))}
                />
                {row.isAssumed || row.field.required ? null : (
                  <Button
                    kind="quiet"
                    onClick={() => state.change(withText({ draft: state.draft, path: row.field.path, text: null }))}
                  >
                    {say('bench:more.back')}
                  </Button>
                )}
              </li>
            ))}
          </ul>
        </>
      )}
      {view.lines.length === 0 ? null : (
        <>
          <h3>{say('bench:assumptions')}</h3>
          <ul className="sum-lines">
            {view.lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </>
      )}
    </Card>
  );
}
