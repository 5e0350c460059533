import { useId, type ReactNode } from 'react';
import '../look/field.css';

export interface BlankOption {
  readonly value: string;
  readonly label: string;
}
export interface BlankGroup {
  readonly label: string;
  readonly options: readonly BlankOption[];
}

/** One of a few words, or of many in groups. */
export function ChoiceBlank({
  label,
  value,
  groups,
  error,
  hint,
  hideLabel,
  onChange,
}: {
  readonly label: string;
  readonly value: string;
  /** One group without a name is a plain list. */
  readonly groups: readonly BlankGroup[];
  readonly error?: string | undefined;
  readonly hint?: string | undefined;
  readonly hideLabel: boolean;
  readonly onChange: (value: string) => void;
}): ReactNode {
  const id = useId();
  const told = [error === undefined ? '' : `${id}-error`, hint === undefined ? '' : `${id}-hint`].join(' ').trim();
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
          {...(told === '' ? {} : { 'aria-describedby': told })}
          onChange={(event) => onChange(event.target.value)}
        >
          {groups.map((group) =>
            group.label === '' ? (
              group.options.map((option) => <Item key={option.value} option={option} />)
            ) : (
              <optgroup key={group.label} label={group.label}>
                {group.options.map((option) => (
                  <Item key={option.value} option={option} />
                ))}
              </optgroup>
            ),
          )}
        </select>
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

const Item = ({ option }: { readonly option: BlankOption }): ReactNode => (
  <option value={option.value}>{option.label}</option>
);
