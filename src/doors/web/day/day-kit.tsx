import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import { SelectField } from '../look/select-field.tsx';
import { localDay } from '../plan/wall-clock.ts';
import type { DayState } from './day-state.ts';

const DAYS_AHEAD = 8;
const DAY_MS = 86_400_000;
const MOST: Readonly<Record<keyof DayState['kit'], number>> = {
  hands: 8,
  burner: 8,
  kettle: 4,
  bowl: 12,
  press: 8,
  'brine-tub': 8,
};
const COUNTED = ['hands', 'burner', 'kettle'] as const;
const ENOUGH = ['bowl', 'press', 'brine-tub'] as const;
const MOST_PUPILS = 24;

/** The hours, and what stands in the kitchen. */
export function DayKitchen({
  state,
  now,
  onChange,
}: {
  readonly state: DayState;
  readonly now: number;
  readonly onChange: (state: DayState) => void;
}): ReactNode {
  const { say, write } = useReader();
  const upTo = (from: number, most: number): { value: string; label: string }[] =>
    Array.from({ length: most - from + 1 }, (_, index) => ({
      value: String(from + index),
      label: String(from + index),
    }));
  const days = Array.from({ length: DAYS_AHEAD }, (_, ahead) => {
    const at = now + ahead * DAY_MS;
    return {
      value: localDay(at),
      label: ahead === 0 ? say('day:hours.today') : ahead === 1 ? say('day:hours.tomorrow') : write.day(at),
    };
  });
  return (
    <Card className="day-kitchen no-print" aria-labelledby="day-hours-title">
      <h2 id="day-hours-title">{say('day:hours.title')}</h2>
      <div className="day-fields">
        <SelectField
          label={say('day:hours.mode')}
          value={state.mode}
          options={(['from', 'to', 'between'] as const).map((value) => ({
            value,
            label: say(`day:hours.modes.${value}`),
          }))}
          onChange={(mode) => onChange({ ...state, mode, earlierMin: 0 })}
        />
        <SelectField
          label={say('day:hours.day')}
          value={days.some(({ value }) => value === state.day) ? state.day : localDay(now)}
          options={days}
          onChange={(day) => onChange({ ...state, day })}
        />
        {state.mode === 'to' ? null : (
          <TimeField
            label={say('day:hours.from')}
            value={state.from}
            onChange={(from) => onChange({ ...state, from })}
          />
        )}
        {state.mode === 'from' ? null : (
          <TimeField label={say('day:hours.to')} value={state.to} onChange={(to) => onChange({ ...state, to })} />
        )}
        {state.mode !== 'between' ? null : (
          <SelectField
            label={say('day:hours.pupils')}
            value={String(state.pupils)}
            options={upTo(0, MOST_PUPILS).map((one) =>
              one.value === '0' ? { ...one, label: say('day:hours.none') } : one,
            )}
            onChange={(pupils) => onChange({ ...state, pupils: Number(pupils) })}
          />
        )}
      </div>
      {state.earlierMin === 0 || state.mode === 'to' ? null : (
        <p className="day-row-note">
          {say('day:hours.earlier', { by: write.duration(state.earlierMin) })}{' '}
          <Button kind="quiet" onClick={() => onChange({ ...state, earlierMin: 0 })}>
            {say('day:hours.earlierOff')}
          </Button>
        </p>
      )}
      <h2>{say('day:kitchen.title')}</h2>
      <div className="day-fields">
        {COUNTED.map((resource) => (
          <SelectField
            key={resource}
            label={say(`day:kit.${resource}`)}
            value={String(state.kit[resource])}
            options={upTo(resource === 'hands' ? 1 : 0, MOST[resource])}
            onChange={(count) => onChange({ ...state, kit: { ...state.kit, [resource]: Number(count) } })}
          />
        ))}
        {ENOUGH.map((resource) => (
          <SelectField
            key={resource}
            label={say(`day:kit.${resource}`)}
            value={state.kit[resource] === null ? 'enough' : String(state.kit[resource])}
            options={[
              { value: 'enough', label: say('day:kitchen.enough') },
              ...upTo(resource === 'press' ? 0 : 1, MOST[resource]),
            ]}
            onChange={(count) =>
              onChange({ ...state, kit: { ...state.kit, [resource]: count === 'enough' ? null : Number(count) } })
            }
          />
        ))}
      </div>
    </Card>
  );
}

function TimeField({ label, value, onChange }: { readonly label: string; readonly value: string; readonly onChange: (value: string) => void }): ReactNode {
  return (
    <label className="field">
      <span className="field-label">{label}</span>
      <span className="field-box">
        <input className="field-input numerals" type="time" step={300} value={value} onChange={(event) => onChange(event.target.value)} />
      </span>
    </label>
  );
} // prettier-ignore
