import type { ReactNode } from 'react';
import type { Explained, ExplainedRow } from '../../../exchange/explained.ts';
import type { Verdict } from '../../../forecast/explain.ts';
import { useReader } from '../device/reader.tsx';

/** The verdict, and the causes by how many of 20 such records each accounts for. */
export function ExplainRanking({ told, verdict }: { readonly told: Explained; readonly verdict: Verdict }): ReactNode {
  const { say } = useReader();
  return (
    <>
      <p className="explain-verdict" role="status">
        {told.verdict}
      </p>
      <ol className="explain-rows">
        {told.rows.map((row, index) => (
          <li key={row.id} className="explain-row" data-usual={row.id === 'nothing'}>
            <Head row={row} />
            {row.id === 'nothing' ? null : <Why row={row} isOpen={index === 0 && verdict !== 'nothing'} />}
          </li>
        ))}
      </ol>
      {told.others.length === 0 ? null : (
        <details className="explain-others">
          <summary>{say('explain:showRest')}</summary>
          <ul>
            {told.others.map((row) => (
              <li key={row.id}>
                <span>{row.name}</span> <span className="explain-small">{row.chance}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

const DOTS = Array.from({ length: 20 }, (_, index) => index);

/** Twenty dots beside the name: those filled are the records that would come from it. */
function Head({ row }: { readonly row: ExplainedRow }): ReactNode {
  return (
    <div className="explain-head">
      <h3>{row.name}</h3>
      <span className="explain-chance pair">{row.chance}</span>
      <span className="explain-dots" aria-hidden="true">
        {DOTS.map((dot) => (
          <span key={dot} data-full={dot < row.inTwenty} />
        ))}
      </span>
    </div>
  );
}

function Why({ row, isOpen }: { readonly row: ExplainedRow; readonly isOpen: boolean }): ReactNode {
  const { say } = useReader();
  const isEmpty = row.speaksFor.length + row.speaksAgainst.length === 0;
  return (
    <details className="explain-why" open={isOpen}>
      <summary>{say('explain:why')}</summary>
      {row.inside === null ? null : (
        <p>
          {say('explain:inside')} {row.inside}.
        </p>
      )}
      {isEmpty ? <p>{say('explain:noEvidence')}</p> : null}
      <Evidence title={say('explain:for')} lines={row.speaksFor} />
      <Evidence title={say('explain:against')} lines={row.speaksAgainst} />
    </details>
  );
}

function Evidence({ title, lines }: { readonly title: string; readonly lines: readonly string[] }): ReactNode {
  if (lines.length === 0) return null;
  return (
    <>
      <h4>{title}</h4>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}
