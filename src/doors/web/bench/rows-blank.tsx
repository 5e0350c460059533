import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Blank, errorAt } from './blank.tsx';
import { untouched, type RowsField } from '../../../exchange/told/field-shapes.ts';
import { cellPath, rowsOf, withRows } from './sum-draft.ts';
import type { SumState } from './sum-state.ts';
import { fieldLabel } from '../../../exchange/told/sum-words.ts';
import { typedSymbol, unitOfField } from '../../../exchange/told/unit-of.ts';

/** Readings or a course over time as a small table; every cell answers as it is typed. */
export function RowsBlank({ state, field }: { readonly state: SumState; readonly field: RowsField }): ReactNode {
  const { say, write } = useReader();
  const { draft, name: sum } = state;
  const rows = rowsOf({ draft, path: field.path });
  const shown = rows.length === 0 && field.required ? [{}] : rows;
  const caption = fieldLabel({ say, sum, path: field.path });
  const whole = errorAt({ state, path: field.path, say });
  const put = (next: readonly Readonly<Record<string, string>>[]): void =>
    state.change(withRows({ draft, path: field.path, rows: next }));
  const blankRow = Object.fromEntries(field.columns.map((column) => [column.path, untouched(column)]));
  const heading = (path: string): string => {
    const unit = typedSymbol({ unit: unitOfField(path), units: write.units });
    const label = fieldLabel({ say, sum, path });
    return unit === '' || unit === 'min' || unit === 'days' ? label : `${label}, ${write.unit(unit)}`;
  };
  return (
    <div className="rows">
      <table className="rows-table">
        <caption>
          {caption}
          {draft.examples.includes(field.path) ? <span className="field-hint"> ({say('bench:example')})</span> : null}
        </caption>
        {shown.length === 0 ? null : (
          <thead>
            <tr>
              {field.columns.map((column) => (
                <th key={column.path} scope="col">
                  {heading(column.path)}
                </th>
              ))}
              <th scope="col">
                <span className="out-of-sight">{say('bench:rows.takeOut')}</span>
              </th>
            </tr>
          </thead>
        )}
        <tbody>
          {shown.map((row: Readonly<Record<string, string>>, index) => (
            // Rows have no identity of their own: the place is the row.
            <tr key={cellPath({ path: field.path, index, column: '' })}>
              {field.columns.map((column) => (
                <td key={column.path}>
                  <Blank
                    state={state}
                    field={column}
                    path={cellPath({ path: field.path, index, column: column.path })}
                    text={row[column.path] ?? untouched(column)}
                    label={say('bench:rows.row', {
                      column: fieldLabel({ say, sum, path: column.path }),
                      row: index + 1,
                    })}
                    quiet
                    bare
                    onText={(text) =>
                      put(shown.map((one, at) => (at === index ? { ...one, [column.path]: text } : one)))
                    }
                  />
                </td>
              ))}
              <td>
                <Button
                  kind="quiet"
                  aria-label={say('bench:rows.remove', { row: index + 1 })}
                  onClick={() => put(shown.filter((_, at) => at !== index))}
                >
                  ×
                </Button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {shown.length >= field.most ? null : (
        <Button kind="quiet" onClick={() => put([...shown, blankRow])}>
          {say('bench:rows.add')}
        </Button>
      )}
      {whole === undefined ? null : (
        <p className="field-error" role="alert">
          {whole}
        </p>
      )}
    </div>
  );
}
