import type { ReactNode } from 'react';
import { Field, type FieldWords } from './field.tsx';

export interface Option<Value extends string> {
  readonly value: Value;
  readonly label: string;
}
/** Options under a name of their own, where there are many. */
export interface OptionGroup<Value extends string> {
  readonly label: string;
  readonly options: readonly Option<Value>[];
}

/** One of a few words, or of many in groups, in the browser's own list: quick with keys, with a thumb and with a screen reader. */
export function SelectField<Value extends string>({
  value,
  options,
  onChange,
  ...words
}: FieldWords & {
  readonly value: Value;
  readonly options: readonly (Option<Value> | OptionGroup<Value>)[];
  readonly onChange: (chosen: Value) => void;
}): ReactNode {
  const all = options.flatMap((each) => ('options' in each ? each.options : [each]));
  return (
    <Field {...words}>
      {(ties) => (
        <select
          {...ties}
          className="field-select"
          value={value}
          onChange={(event) => {
            const chosen = all.find((option) => option.value === event.target.value);
            if (chosen !== undefined) onChange(chosen.value);
          }}
        >
          {options.map((each) =>
            'options' in each ? (
              <optgroup key={each.label} label={each.label}>
                {each.options.map((option) => (
                  <Item key={option.value} option={option} />
                ))}
              </optgroup>
            ) : (
              <Item key={each.value} option={each} />
            ),
          )}
        </select>
      )}
    </Field>
  );
}

const Item = ({ option }: { readonly option: Option<string> }): ReactNode => (
  <option value={option.value}>{option.label}</option>
);
