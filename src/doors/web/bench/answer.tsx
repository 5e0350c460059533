import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { NumbersTable } from '../chart/numbers-table.tsx';
import type { AnswerLine, AnswerTable, AnswerView } from './answer-view.ts';
import { joined, type SaidNumber } from './rounding.ts';

/** The answer: the first results large, each with its span, the others in a list. */
export function Answer({ view }: { readonly view: AnswerView }): ReactNode {
  return (
    <div className="answer">
      <div className="answer-first" role="status">
        {view.first.map((line) => (
          <First key={line.path} line={line} />
        ))}
      </div>
      {view.more.length === 0 ? null : (
        <dl className="answer-more">
          {view.more.map((line) => (
            <div key={line.path}>
              <dt>{line.label}</dt>
              <dd>
                <span className="numerals pair">{typeof line.said === 'string' ? line.said : joined(line.said)}</span>
                {line.span === null ? null : <span className="answer-span">{line.span}</span>}
              </dd>
            </div>
          ))}
        </dl>
      )}
    </div>
  );
}

function First({ line }: { readonly line: AnswerLine }): ReactNode {
  return (
    <p className="answer-line">
      <span className="answer-label">{line.label}</span>
      {typeof line.said === 'string' ? (
        <strong className="answer-words">{line.said}</strong>
      ) : (
        <Large said={line.said} />
      )}
      {line.span === null ? null : <span className="answer-span">{line.span}</span>}
    </p>
  );
}

const Large = ({ said }: { readonly said: SaidNumber }): ReactNode => (
  <span className="answer-number pair">
    <span className="numerals">{said.number}</span>
    {said.unit === '' ? null : (
      <span className="answer-unit">
        {'\u202F'}
        {said.unit}
      </span>
    )}
  </span>
);

/** Lists that a sum gives back: portions, top-ups, names. */
export function AnswerTables({ tables }: { readonly tables: readonly AnswerTable[] }): ReactNode {
  const { say } = useReader();
  return tables.map((table) => (
    <section key={table.path} className="answer-table" aria-label={table.caption}>
      <h3>{table.caption}</h3>
      <NumbersTable
        summary={say('bench:plot.numbers')}
        caption={table.caption}
        columns={table.columns}
        rows={table.rows}
      />
    </section>
  ));
}
