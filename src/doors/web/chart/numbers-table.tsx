import type { ReactNode } from 'react';
import './chart.css';

interface Numbers {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** What a plot shows, as numbers behind a heading: the same points, in words and figures. */
export function NumbersTable({
  summary,
  caption,
  ...numbers
}: Numbers & { readonly summary: string; readonly caption: string }): ReactNode {
  return (
    <details className="numbers no-print">
      <summary>{summary}</summary>
      <div className="numbers-scroll">
        <OpenNumbers caption={caption} {...numbers} />
      </div>
    </details>
  );
}

/** The table itself, in sight. Each cell says its column, for a width that has no room for the head. */
export function OpenNumbers({
  caption,
  columns,
  rows,
}: Numbers & {
  /** Left out where a heading beside the table names it. */
  readonly caption?: string;
}): ReactNode {
  return (
    <table className="numbers-table">
      {caption === undefined ? null : <caption className="out-of-sight">{caption}</caption>}
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
          <tr key={row.join('|')}>
            {row.map((cell, index) => (
              <td key={columns[index] ?? index} data-label={columns[index]}>
                {cell}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
