import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Field, type FieldWords } from './field.tsx';

/**
 * A typed number with its unit printed inside the field. What was typed stays as typed: nothing is trimmed, rounded
 * or put back by itself, and what is wrong is said beside it.
 */
export function NumberField({
  value,
  unit,
  onChange,
  width = 5,
  ...words
}: FieldWords & {
  readonly value: string;
  readonly unit: string;
  readonly onChange: (typed: string) => void;
  /** Room for this many figures. */
  readonly width?: number;
}): ReactNode {
  const { write } = useReader();
  return (
    <Field {...words}>
      {(ties) => (
        <>
          <input
            {...ties}
            className="field-input numerals"
            inputMode="decimal"
            autoComplete="off"
            value={write.typed(value)}
            style={{ width: `${Math.max(width, value.length + 0.5)}ch` }}
            onChange={(event) => onChange(event.target.value)}
          />
          {unit === '' ? null : (
            <span className="field-unit" aria-hidden="true">
              {unit}
            </span>
          )}
        </>
      )}
    </Field>
  );
}
