import { useId, type ReactNode } from 'react';
import type { Option } from './select-field.tsx';
import './choice.css';

/** Two to five choices that are all seen at once; arrow keys move, as in any radio group. */
export function Choice<Value extends string>({
  label,
  value,
  options,
  onChange,
}: {
  readonly label: string;
  readonly value: Value;
  readonly options: readonly Option<Value>[];
  readonly onChange: (chosen: Value) => void;
}): ReactNode {
  const name = useId();
  return (
    <fieldset className="choice">
      <legend>{label}</legend>
      <div className="choice-row">
        {options.map((option) => (
          <label key={option.value} className="choice-item">
            <input type="radio" name={name} checked={option.value === value} onChange={() => onChange(option.value)} />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
