import type { ReactNode } from 'react';
import './chart.css';

/** What a plot shows, as numbers: the same points, in words and figures. */
export function NumbersTable({
  summary,
  caption,
  columns,
  rows,
}: {
  readonly summary: string;
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}): ReactNode {
  return (
    <details className="numbers no-print">
      <summary>{summary}</summary>
      <div className="numbers-scroll">
        <table className="numbers-table">
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
              <tr key={row.join('|')}>
                {row.map((cell, index) => (
                  <td key={columns[index] ?? index}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
