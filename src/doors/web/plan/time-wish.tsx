import { useId, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { SelectField } from '../look/select-field.tsx';
import type { Draft } from './draft.ts';
import { localDay } from './wall-clock.ts';

const DAY_MS = 86_400_000;
const DAYS_AHEAD = 8;

/** The second half of the sentence: done by, or start at, which day. */
export function TimeWish({
  clock,
  now,
  onChange,
}: {
  readonly clock: Draft['clock'];
  readonly now: number;
  readonly onChange: (clock: Draft['clock']) => void;
}): ReactNode {
  const { say, write } = useReader();
  const timeId = useId();
  const words = (key: string): string => say(`plan:sentence.${key}`);
  const days = Array.from({ length: DAYS_AHEAD }, (_, ahead) => {
    const at = now + ahead * DAY_MS;
    return {
      value: localDay(at),
      label: ahead === 0 ? words('today') : ahead === 1 ? words('tomorrow') : write.day(at),
    };
  });
  return (
    <p className="sentence-line">
      <SelectField
        label={words('fields.mode')}
        hideLabel
        value={clock.mode}
        options={[
          { value: 'done-by', label: words('doneBy') },
          { value: 'start-at', label: words('startAt') },
        ]}
        onChange={(mode) => onChange({ ...clock, mode })}
      />{' '}
      <span className="field">
        <label htmlFor={timeId} className="out-of-sight">
          {words('fields.time')}
        </label>
        <span className="field-box">
          <input
            id={timeId}
            className="field-input numerals"
            type="time"
            step={300}
            value={clock.time}
            onChange={(event) => onChange({ ...clock, time: event.target.value })}
          />
        </span>
      </span>{' '}
      <SelectField
        label={words('fields.day')}
        hideLabel
        value={days.some((day) => day.value === clock.day) ? clock.day : localDay(now)}
        options={days}
        onChange={(day) => onChange({ ...clock, day })}
      />
      <span>{words('end')}</span>
    </p>
  );
}
