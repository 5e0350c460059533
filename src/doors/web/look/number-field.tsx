import { useId, type ReactNode } from 'react';
import './field.css';

/**
 * A typed number with its unit printed inside the field. What was typed stays as typed: nothing is trimmed, rounded
 * or put back by itself, and what is wrong is said beside it.
 */
export function NumberField({
  label,
  value,
  unit,
  onChange,
  error,
  hint,
  hideLabel = false,
  width = 5,
}: {
  readonly label: string;
  readonly value: string;
  readonly unit: string;
  readonly onChange: (typed: string) => void;
  readonly error?: string | undefined;
  readonly hint?: string | undefined;
  /** In the sentence the words around the field are its label to the eye. */
  readonly hideLabel?: boolean;
  /** Room for this many figures. */
  readonly width?: number;
}): ReactNode {
  const id = useId();
  const told = [error === undefined ? '' : `${id}-error`, hint === undefined ? '' : `${id}-hint`].join(' ').trim();
  return (
    <span className="field">
      <label htmlFor={id} className={hideLabel ? 'out-of-sight' : 'field-label'}>
        {label}
      </label>
      <span className={`field-box ${error === undefined ? '' : 'field-wrong'}`}>
        <input
          id={id}
          className="field-input numerals"
          inputMode="decimal"
          autoComplete="off"
          value={value}
          style={{ width: `${Math.max(width, value.length + 0.5)}ch` }}
          aria-invalid={error !== undefined}
          {...(told === '' ? {} : { 'aria-describedby': told })}
          onChange={(event) => onChange(event.target.value)}
        />
        {unit === '' ? null : (
          <span className="field-unit" aria-hidden="true">
            {unit}
          </span>
        )}
      </span>
      {hint === undefined ? null : (
        <span id={`${id}-hint`} className="field-hint">
          {hint}
        </span>
      )}
      {error === undefined ? null : (
        <span id={`${id}-error`} className="field-error" role="alert">
          {error}
        </span>
      )}
    </span>
  );
}
