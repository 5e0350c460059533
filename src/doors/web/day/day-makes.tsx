import type { ReactNode } from 'react';
import type { Make } from '../../../make/make.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import { NumberField } from '../look/number-field.tsx';
import { SelectField } from '../look/select-field.tsx';
import { FACTS } from '../plan/draft-fields.ts';
import { unitSymbol } from '../plan/unit-symbol.ts';
import { MOST_POTS, type DayRow, type DayState } from './day-state.ts';

/** Which makes, of how much milk, in how many pots. */
export function DayMakes({
  state,
  makes,
  recorded,
  clock,
  onChange,
}: {
  readonly state: DayState;
  readonly makes: readonly Pick<Make, 'id' | 'name'>[];
  /** Names of pots that the record has already. */
  readonly recorded: readonly string[];
  /** Minutes of the day as the reader's clock. */
  readonly clock: (minutes: number) => string;
  readonly onChange: (state: DayState) => void;
}): ReactNode {
  const { say, write } = useReader();
  const counts = Array.from({ length: MOST_POTS }, (_, index) => index + 1);
  const set = (row: DayRow): void => onChange({ ...state, rows: state.rows.map((one) => (one.id === row.id ? row : one)) });
  const add = (): void => {
    const id = `row-${1 + Math.max(0, ...state.rows.map((row) => Number(row.id.replace('row-', ''))))}`;
    const last = state.rows.at(-1);
    onChange({ ...state, rows: [...state.rows, { id, makeId: last?.makeId ?? makes[0]?.id ?? '', milk: last?.milk ?? '10', pots: 1 }] });
  };
  return (
    <Card rim className="day-makes no-print" aria-labelledby="day-makes-title">
      <h2 id="day-makes-title">{say('day:makes.title')}</h2>
      {recorded.length === 0 ? null : <p className="plan-note">{say('day:makes.recorded', { pots: recorded.join(', ') })}</p>}
      <ul className="day-rows">
        {state.rows.map((row) => (
          <li key={row.id} className="day-row">
            <SelectField label={say('day:makes.make')} value={row.makeId} options={makes.map(({ id, name }) => ({ value: id, label: name }))} onChange={(makeId) => set(withoutCold({ ...row, makeId }))} />
            <NumberField label={say('day:makes.milk')} value={row.milk} unit={unitSymbol({ fact: FACTS['milk.volumeL'], units: write.units })} width={4} onChange={(milk) => set({ ...row, milk })} />
            <SelectField label={say('day:makes.pots')} value={String(row.pots)} options={counts.map((count) => ({ value: String(count), label: say('day:makes.potsCount', { count }) }))} onChange={(pots) => set({ ...row, pots: Number(pots) })} />
            {state.rows.length + recorded.length < 2 ? null : (
              <Button kind="quiet" aria-label={say('day:makes.removeNamed', { make: makes.find(({ id }) => id === row.makeId)?.name ?? '' })} onClick={() => onChange({ ...state, rows: state.rows.filter(({ id }) => id !== row.id) })}>
                {say('day:makes.remove')}
              </Button>
            )}
            {row.madeFromMin === undefined ? null : (
              <p className="day-row-note">
                {say(row.madeFromMin < 0 ? 'day:makes.coldBefore' : 'day:makes.cold', { at: clock(row.madeFromMin) })}{' '}
                <Button kind="quiet" onClick={() => set(withoutCold(row))}>{say('day:makes.coldOff')}</Button>
              </p>
            )}
          </li>
        ))}
      </ul>
      <p className="day-add">
        {state.rows.reduce((sum, { pots }) => sum + pots, 0) >= MOST_POTS ? null : <Button onClick={add}>{say('day:makes.add')}</Button>}
        <span className="plan-note">{say('day:makes.answers')}</span>
      </p>
    </Card>
  );
} // prettier-ignore

const withoutCold = ({ id, makeId, milk, pots }: DayRow): DayRow => ({ id, makeId, milk, pots });
