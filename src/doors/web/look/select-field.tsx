import { useId, type ReactNode } from 'react';
import './field.css';

export interface Option<Value extends string> {
  readonly value: Value;
  readonly label: string;
}

/** One of a few words, in the browser's own list: quick with keys, with a thumb and with a screen reader. */
export function SelectField<Value extends string>({
  label,
  value,
  options,
  onChange,
  error,
  hint,
  hideLabel = false,
}: {
  readonly label: string;
  readonly value: Value;
  readonly options: readonly Option<Value>[];
  readonly onChange: (chosen: Value) => void;
  readonly error?: string | undefined;
  readonly hint?: string | undefined;
  readonly hideLabel?: boolean;
}): ReactNode {
  const id = useId();
  return (
    <span className="field">
      <label htmlFor={id} className={hideLabel ? 'out-of-sight' : 'field-label'}>
        {label}
      </label>
      <span className={`field-box ${error === undefined ? '' : 'field-wrong'}`}>
        <select
          id={id}
          className="field-select"
          value={value}
          aria-invalid={error !== undefined}
          {...(error === undefined ? {} : { 'aria-describedby': `${id}-error` })}
          onChange={(event) => {
            const chosen = options.find((option) => option.value === event.target.value);
            if (chosen !== undefined) onChange(chosen.value);
          }}
        >
          {options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.label}
            </option>
          ))}
        </select>
      </span>
      {hint === undefined ? null : <span className="field-hint">{hint}</span>}
      {error === undefined ? null : (
        <span id={`${id}-error`} className="field-error" role="alert">
          {error}
        </span>
      )}
    </span>
  );
}
