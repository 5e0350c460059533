import { useState, type ReactNode } from 'react';
import { useReader } from '../../device/reader.tsx';
import { Button } from '../../look/button.tsx';
import { Field } from '../../look/field.tsx';
import { NumberField } from '../../look/number-field.tsx';
import { SelectField } from '../../look/select-field.tsx';
import { problemText } from './change-view.ts';
import { at, listAt, type Path } from './edit.ts';
import type { Edit } from './use-change.ts';

interface Of {
  readonly edit: Edit;
  readonly path: Path;
  readonly label: string;
}

/** What is wrong at a field, in words. */
function useError(edit: Edit, path: Path): string | undefined {
  const telling = useReader();
  const problem = edit.problemAt(path);
  return problem === undefined ? undefined : problemText(problem, telling);
}

/** A line or a few lines of words. */
export function TextField({
  edit,
  path,
  label,
  lines = 1,
  most,
}: Of & { readonly lines?: number; readonly most?: number }): ReactNode {
  const { say } = useReader();
  const value = at(edit.json, path);
  const text = typeof value === 'string' ? value : '';
  const error = useError(edit, path);
  const hint =
    most === undefined || text.length < 0.8 * most ? undefined : say('change:left', { count: most - text.length });
  return (
    <Field label={label} error={error} hint={hint}>
      {(ties) =>
        lines === 1 ? (
          <input
            {...ties}
            className="field-input change-text"
            value={text}
            onChange={(event) => edit.put(path, event.target.value)}
          />
        ) : (
          <textarea
            {...ties}
            className="field-input change-text"
            rows={lines}
            value={text}
            onChange={(event) => edit.put(path, event.target.value)}
          />
        )
      }
    </Field>
  );
}

/** A number as typed: a decimal comma is one too; what cannot be read is kept as it is typed, and named as wrong. */
export function NumberAt({
  edit,
  path,
  label,
  unit = '',
  hint,
}: Of & { readonly unit?: string; readonly hint?: string | undefined }): ReactNode {
  const value = at(edit.json, path);
  const shown = typeof value === 'number' || typeof value === 'string' ? String(value) : '';
  const [typed, setTyped] = useState(shown);
  const isSame = Number(typed.replace(',', '.')) === value || typed === value;
  const error = useError(edit, path);
  return (
    <NumberField
      label={label}
      value={isSame ? typed : shown}
      unit={unit}
      width={4}
      error={error}
      hint={hint}
      onChange={(text) => {
        setTyped(text);
        const read = Number(text.replace(',', '.'));
        edit.put(path, text.trim() === '' || !Number.isFinite(read) ? text : read);
      }}
    />
  );
}

/** Where a figure comes from: the make's own list of sources, or common practice. */
export function SourceAt({ edit, path }: { readonly edit: Edit; readonly path: Path }): ReactNode {
  const { say } = useReader();
  const value = at(edit.json, path);
  const sources = listAt(edit.json, ['sources']);
  const options = [
    { value: 'common practice', label: say('change:practice') },
    ...sources.map((source, index) => ({
      value: String(index),
      label: say('change:sourceAt', { number: index + 1, source: String(source).slice(0, 60) }),
    })),
  ];
  return (
    <span className="change-source">
      <SelectField
        label={say('change:source')}
        hideLabel
        value={typeof value === 'number' ? String(value) : 'common practice'}
        error={useError(edit, path)}
        options={options}
        onChange={(chosen) => edit.put(path, chosen === 'common practice' ? chosen : Number(chosen))}
      />
    </span>
  );
}

/** A figure with its source beside it; temperatures with the reader's degrees as well. */
export function FigureField({
  edit,
  path,
  label,
  unit = '',
  onDrop,
}: Of & { readonly unit?: string; readonly onDrop?: () => void }): ReactNode {
  const { say, write } = useReader();
  const value = at(edit.json, [...path, 'value']);
  const hint =
    unit === '°C' && write.units === 'us' && typeof value === 'number' ? write.temperature(value).text : undefined;
  return (
    <div className="change-figure">
      <NumberAt edit={edit} path={[...path, 'value']} label={label} unit={unit} hint={hint} />
      <SourceAt edit={edit} path={[...path, 'source']} />
      {onDrop === undefined ? null : (
        <Button kind="quiet" aria-label={say('change:dropOf', { what: label })} onClick={onDrop}>
          {say('change:drop')}
        </Button>
      )}
    </div>
  );
}

/** A range: the aim, how low and how high it is still the same cheese, and its source. */
export function RangeField({ edit, path, label, unit = '' }: Of & { readonly unit?: string }): ReactNode {
  const { say } = useReader();
  const telling = useReader();
  const problem = edit.problemAt(path);
  return (
    <fieldset className="change-range">
      <legend>{label}</legend>
      <div className="change-figure">
        {(['low', 'aim', 'high'] as const).map((key) => (
          <NumberAt key={key} edit={edit} path={[...path, key]} label={say(`change:range.${key}`)} unit={unit} />
        ))}
        <SourceAt edit={edit} path={[...path, 'source']} />
      </div>
      {problem === undefined ? null : <p className="field-error">{problemText(problem, telling)}</p>}
    </fieldset>
  );
}

/** One word of a list that the language knows. */
export function ChoiceAt({
  edit,
  path,
  label,
  options,
  wordOf,
}: Of & { readonly options: readonly string[]; readonly wordOf: (option: string) => string }): ReactNode {
  const value = at(edit.json, path);
  return (
    <SelectField
      label={label}
      value={options.find((option) => option === value) ?? ''}
      error={useError(edit, path)}
      options={options.map((option) => ({ value: option, label: wordOf(option) }))}
      onChange={(chosen) => edit.put(path, chosen)}
    />
  );
}

/** Several words of a list, each with a box. */
export function ChecksAt({
  edit,
  path,
  label,
  options,
  wordOf,
}: Of & { readonly options: readonly string[]; readonly wordOf: (option: string) => string }): ReactNode {
  const chosen = listAt(edit.json, path).filter((one) => typeof one === 'string');
  const error = useError(edit, path);
  const all = [...options, ...chosen.filter((one) => !options.includes(one))];
  return (
    <fieldset className="change-checks">
      <legend>{label}</legend>
      {all.map((option) => (
        <label key={option} className="change-check">
          <input
            type="checkbox"
            checked={chosen.includes(option)}
            onChange={() =>
              edit.put(
                path,
                chosen.includes(option)
                  ? chosen.filter((one) => one !== option)
                  : all.filter((one) => one === option || chosen.includes(one)),
              )
            }
          />
          <span>{wordOf(option)}</span>
        </label>
      ))}
      {error === undefined ? null : <p className="field-error">{error}</p>}
    </fieldset>
  );
}

/** Words that one types, one a line: other names, words on the carton, sources. */
export function LinesAt({ edit, path, label, hint }: Of & { readonly hint?: string }): ReactNode {
  const lines = listAt(edit.json, path).map(String);
  return (
    <Field label={label} hint={hint} error={useError(edit, path)}>
      {(ties) => (
        <textarea
          {...ties}
          className="field-input change-text"
          rows={Math.min(12, Math.max(2, lines.length + 1))}
          value={lines.join('\n')}
          onChange={(event) => edit.put(path, event.target.value === '' ? [] : event.target.value.split('\n'))}
        />
      )}
    </Field>
  );
}
