import { useId, type ReactNode } from 'react';

/** A day, in the browser's own calendar. */
export function DayField({
  label,
  value,
  least,
  onChange,
}: {
  readonly label: string;
  readonly value: string;
  readonly least?: string;
  readonly onChange: (day: string) => void;
}): ReactNode {
  const id = useId();
  return (
    <span className="field">
      <label htmlFor={id} className="field-label">
        {label}
      </label>
      <span className="field-box">
        <input
          id={id}
          className="field-input numerals"
          type="date"
          value={value}
          min={least}
          onChange={(event) => onChange(event.target.value)}
        />
      </span>
    </span>
  );
}
