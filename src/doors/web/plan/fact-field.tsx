import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { NumberField } from '../look/number-field.tsx';
import { SelectField } from '../look/select-field.tsx';
import type { Fact, FactPath } from './draft-fields.ts';
import { unitSymbol } from './unit-symbol.ts';

/** The field of one fact, whichever kind it is; the same in the sentence and in the list of what was assumed. */
export function FactField({
  path,
  fact,
  text,
  error,
  label,
  hideLabel = false,
  onChange,
}: {
  readonly path: FactPath;
  readonly fact: Fact;
  readonly text: string;
  readonly error?: string | undefined;
  readonly label?: string;
  readonly hideLabel?: boolean;
  readonly onChange: (text: string) => void;
}): ReactNode {
  const { say, write } = useReader();
  const name = label ?? say(`plan:facts.${path}`);
  if (fact.kind === 'number') {
    return (
      <NumberField
        label={name}
        value={text}
        unit={write.unit(unitSymbol({ fact, units: write.units }))}
        width={3}
        hideLabel={hideLabel}
        error={error}
        onChange={onChange}
      />
    );
  }
  const isYesNo = fact.options.includes('yes');
  return (
    <SelectField
      label={name}
      value={text}
      hideLabel={hideLabel}
      error={error}
      options={fact.options.map((value) => ({ value, label: say(isYesNo ? `plan:options.${value}` : `plan:options.${path}.${value}`) }))} // prettier-ignore
      onChange={onChange}
    />
  );
}
