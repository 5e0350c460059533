import { useId, type ReactNode } from 'react';
import { chanceText } from '../../../exchange/solve/solve-words.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { AimQuantity } from '../../../forecast/question.ts';
import type { Make } from '../../../make/make.ts';
import { useReader } from '../device/reader.tsx';
import { NumberField } from '../look/number-field.tsx';
import { SelectField } from '../look/select-field.tsx';
import { OFFERED_AIMS, readRow, unitOf, usualRow, type AimRow } from './aim-rows.ts';

const MOST_AIMS = 3;
const CHANCES = [0.6, 0.7, 0.8, 0.9] as const;

/** "I want salt in the moisture from 1.2 to 2.6 %, as often as 8 in 10." The sentence is the form. */
export function AimSentence({
  rows,
  read,
  chance,
  make,
  forecast,
  endAt,
  onRows,
  onChance,
}: {
  readonly rows: readonly AimRow[];
  readonly read: readonly ReturnType<typeof readRow>[];
  readonly chance: number;
  readonly make: Make;
  readonly forecast: Forecast;
  readonly endAt: number;
  readonly onRows: (rows: readonly AimRow[]) => void;
  readonly onChance: (chance: number) => void;
}): ReactNode {
  const { say, write } = useReader();
  const words = (key: string): string => say(`solve:card.${key}`);
  const known = OFFERED_AIMS.filter((quantity) => quantity === 'cheeseKg' || quantity === 'endMin' || make.aims.some((aim) => aim.quantity === quantity)); // prettier-ignore
  const choose = (index: number, quantity: AimQuantity | 'nothing'): void => {
    if (quantity === 'nothing') return onRows(rows.filter((_, other) => other !== index));
    const row = usualRow({ quantity, make, forecast, endAt, units: write.units });
    onRows(index < rows.length ? rows.map((one, other) => (other === index ? row : one)) : [...rows, row]);
  };
  const places = Math.min(rows.length + 1, MOST_AIMS);
  return (
    <div className="aim-sentence" role="group" aria-label={words('title')}>
      {Array.from({ length: places }, (_, index) => {
        const row = rows[index];
        const others = new Set(rows.filter((_one, other) => other !== index).map((one) => one.quantity));
        const found = read[index];
        const wrong = found !== undefined && 'wrong' in found ? found.wrong : null;
        return (
          <p key={index} className="aim-line">
            <SelectField
              label={words(index === 0 ? 'aim' : 'aimAlso')}
              value={row?.quantity ?? 'nothing'}
              options={[
                { value: 'nothing' as const, label: words(index === 0 ? 'nothing' : 'alsoNothing') },
                ...known
                  .filter((quantity) => !others.has(quantity))
                  .map((value) => ({ value, label: words(`names.${value}`) })),
              ]}
              onChange={(quantity) => choose(index, quantity)}
            />
            {row === undefined ? null : (
              <Ends row={row} wrong={wrong} onRow={(next) => onRows(rows.map((one, other) => (other === index ? next : one)))} /> // prettier-ignore
            )}
            {index === places - 1 && rows.length > 0 ? (
              <SelectField
                label={words('chance')}
                value={String(chance)}
                options={CHANCES.map((value) => ({ value: String(value), label: chanceText(value, say) }))}
                onChange={(value) => onChance(Number(value))}
              />
            ) : null}
          </p>
        );
      })}
    </div>
  );
}

/** The two ends of one aim, or the time by which one must be done. */
function Ends({
  row,
  wrong,
  onRow,
}: {
  readonly row: AimRow;
  readonly wrong: 'low' | 'high' | 'range' | null;
  readonly onRow: (row: AimRow) => void;
}): ReactNode {
  const { say, write } = useReader();
  const timeId = useId();
  const words = (key: string): string => say(`solve:card.${key}`);
  if (row.quantity === 'endMin') {
    return (
      <span className="field">
        <label htmlFor={timeId} className="field-label">
          {words('latest')}
        </label>
        <span className="field-box">
          <input
            id={timeId}
            className="field-input numerals"
            type="time"
            step={300}
            value={row.high}
            onChange={(event) => onRow({ ...row, high: event.target.value })}
          />
        </span>
      </span>
    );
  }
  const unit = unitOf(row.quantity, write.units);
  const error = (end: 'low' | 'high'): string | undefined =>
    wrong === end || (wrong === 'range' && end === 'low') ? words(`wrong.${wrong}`) : undefined;
  return (
    <span className="aim-ends">
      <NumberField label={words('low')} value={row.low} unit={unit} width={3} error={error('low')} onChange={(low) => onRow({ ...row, low })} />
      <NumberField label={words('high')} value={row.high} unit={unit} width={3} error={error('high')} onChange={(high) => onRow({ ...row, high })} />
    </span>
  ); // prettier-ignore
}
