import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { columnLabels, type FileAnswers } from './file-answers.ts';

const SHOWN = 4;

/** The first rows as they stand in the file, each column under what it is taken for. */
export function FirstRows({ answers }: { readonly answers: FileAnswers }): ReactNode {
  const { say } = useReader();
  const { mapping, rows } = answers;
  const labels = columnLabels(answers, (number) => say('instruments:file.columnNumber', { number }));
  const takenFor = (column: number): string =>
    column === mapping.time?.column
      ? say('instruments:file.is.time')
      : column === mapping.time?.dateColumn
        ? say('instruments:file.is.date')
        : column === mapping.temperature?.column
          ? say('instruments:file.is.temperature')
          : column === mapping.pHColumn
            ? say('instruments:file.is.pH')
            : say('instruments:file.is.nothing');
  return (
    <div className="numbers-scroll">
      <table className="numbers-table logger-rows">
        <caption>{say('instruments:file.firstRows')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('instruments:file.row')}</th>
            {labels.map((label, column) => (
              <th
                key={`${label}-${column}`}
                scope="col"
                data-taken={takenFor(column) !== say('instruments:file.is.nothing')}
              >
                {' '}
                {/* prettier-ignore */}
                <span className="logger-taken">{takenFor(column)}</span> {label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.slice(mapping.headRows, mapping.headRows + SHOWN).map((row, index) => (
            <tr key={`${row.join('|')}-${index}`}>
              <td>{mapping.headRows + index + 1}</td>
              {labels.map((label, column) => (
                <td key={`${label}-${column}`}>{row[column] ?? ''}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
