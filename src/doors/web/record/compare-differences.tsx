import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import type { DifferenceRow } from './compare-told.ts';

/** So many rows stand open; the smaller ones wait behind a heading: our own choice. */
const OPEN_ROWS = 8;

/** What differed, the largest first, with units and spans. */
export function CompareDifferences({
  rows,
  mine,
}: {
  readonly rows: readonly DifferenceRow[];
  readonly mine: string;
}): ReactNode {
  const { say } = useReader();
  const rest = rows.slice(OPEN_ROWS);
  return (
    <section className="compare-differences" aria-labelledby="compare-differences">
      <h2 id="compare-differences">{say('compare:differences')}</h2>
      <p>{say('compare:differencesHow')}</p>
      <Table rows={rows.slice(0, OPEN_ROWS)} mine={mine} caption={say('compare:differences')} />
      {rest.length === 0 ? null : (
        <details className="numbers">
          <summary>{say('compare:more')}</summary>
          <Table rows={rest} mine={mine} caption={say('compare:more')} />
        </details>
      )}
    </section>
  );
}

function Table({
  rows,
  mine,
  caption,
}: {
  readonly rows: readonly DifferenceRow[];
  readonly mine: string;
  readonly caption: string;
}): ReactNode {
  const { say } = useReader();
  const columns = [say('compare:of'), mine, say('compare:others'), say('compare:difference')];
  return (
    <table className="numbers-table compare-table">
      <caption className="out-of-sight">{caption}</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.id}>
            <th scope="row">{row.name}</th>
            {[row.mine, row.others, row.difference].map((cell, index) => (
              <td key={columns[index + 1]} data-label={columns[index + 1]}>
                {cell}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
