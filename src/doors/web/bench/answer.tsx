import type { ReactNode } from 'react';
import { NumbersTable, OpenNumbers } from '../chart/numbers-table.tsx';
import { useReader } from '../device/reader.tsx';
import type { AnswerLine, AnswerTable, AnswerView } from '../../../exchange/told/answer-view.ts';
import { gapBefore, type SaidNumber } from '../../../exchange/told/rounding.ts';

/** The answer: the first results large, each with its span, the others in a list. */
export function Answer({ view }: { readonly view: AnswerView }): ReactNode {
  return (
    <div className="answer">
      <div className="answer-first" role="status">
        {view.first.map((line) => (
          <LargeLine key={line.path} {...line} />
        ))}
      </div>
      {view.more.length === 0 ? null : (
        <dl className="answer-more">
          {view.more.map((line) => (
            <div key={line.path}>
              <dt>{line.label}</dt>
              <dd>
                {typeof line.said === 'string' ? <strong>{line.said}</strong> : <Said said={line.said} />}
                {line.span === null ? null : <span className="answer-span">{line.span}</span>}
              </dd>
            </div>
          ))}
        </dl>
      )}
    </div>
  );
}

/** One result, large, under its name and over its span. */
export const LargeLine = ({ label, said, span }: Omit<AnswerLine, 'path'>): ReactNode => (
  <p className="answer-line">
    <span className="answer-label">{label}</span>
    {typeof said === 'string' ? <strong className="answer-words">{said}</strong> : <Said said={said} isLarge />}
    {span === null ? null : <span className="answer-span">{span}</span>}
  </p>
);

/** A number with its unit; the two never part. */
const Said = ({ said, isLarge = false }: { readonly said: SaidNumber; readonly isLarge?: boolean }): ReactNode => (
  <span className={`pair ${isLarge ? 'answer-number' : 'answer-small'}`}>
    <span className="numerals">{said.number}</span>
    {said.unit === '' ? null : (
      <span className="answer-unit">
        {gapBefore(said.unit)}
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
      <h2>{table.caption}</h2>
      {table.rows.length > MOST_OPEN ? (
        <NumbersTable
          summary={say('bench:plot.numbers')}
          caption={table.caption}
          columns={table.columns}
          rows={table.rows}
        />
      ) : (
        <div className="answer-scroll">
          <OpenNumbers columns={table.columns} rows={table.rows} />
        </div>
      )}
    </section>
  ));
}

const MOST_OPEN = 16; // rows; a longer list waits behind its heading
