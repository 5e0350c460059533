import { useState, type ReactNode } from 'react';
import type { Care } from '../../../record/care-plan.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { NumberField } from '../look/number-field.tsx';
import { CARE_FIGURES, careOfDraft, draftOfCare, type CareDraft, type CareFigure } from './care-draft.ts';

const UNITS: Readonly<Record<CareFigure, 'days' | '°C' | '%'>> = { days: 'days', temperatureC: '°C', humidityPercent: '%', turn: 'days', brush: 'days', wash: 'days', weigh: 'days' }; // prettier-ignore

/** A plain plan: for each room how long, how warm, how moist, and every how many days each job; blank is never. */
export function CareForm({
  care,
  onKeep,
  onCancel,
}: {
  readonly care: Care;
  readonly onKeep: (care: Care) => void;
  readonly onCancel: (() => void) | null;
}): ReactNode {
  const { say, write } = useReader();
  const [draft, setDraft] = useState<CareDraft>(() => draftOfCare({ care, units: write.units }));
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const put = (stay: number, field: CareFigure, text: string): void =>
    setDraft({ ...draft, stays: draft.stays.map((one, i) => (i === stay ? { ...one, [field]: text } : one)) });
  const keep = (): void => {
    const read = careOfDraft({ draft, care, units: write.units, by: say('ageing:care.byMaker') });
    if ('wrong' in read) return setWrong(read.wrong);
    onKeep(read.care);
  };
  const unitOf = (field: CareFigure): string =>
    UNITS[field] === '°C' ? (write.units === 'us' ? '°F' : '°C') : UNITS[field] === '%' ? '%' : say('ageing:care.days');
  return (
    <form
      className="care-form"
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <p>{say('ageing:care.about')}</p>
      {draft.stays.map((stay, i) => (
        <fieldset key={i} className="care-stay">
          <legend>{say('ageing:care.stay', { nth: i + 1 })}</legend>
          {CARE_FIGURES.map((field) => (
            <NumberField
              key={field}
              label={say(`ageing:care.field.${field}`)}
              value={stay[field]}
              unit={unitOf(field)}
              width={3}
              error={wrong.includes(`${i}.${field}`) ? say('ageing:care.wrong') : undefined}
              onChange={(text) => put(i, field, text)}
            />
          ))}
        </fieldset>
      ))}
      <p className="place-acts">
        {draft.stays.length < MOST_STAYS ? (
          <Button onClick={() => setDraft({ ...draft, stays: [...draft.stays, { ...BLANK_STAY }] })}>
            {say('ageing:care.addStay')}
          </Button>
        ) : null}
        {draft.stays.length > 1 ? (
          <Button onClick={() => setDraft({ ...draft, stays: draft.stays.slice(0, -1) })}>
            {say('ageing:care.dropStay')}
          </Button>
        ) : null}
      </p>
      <div className="piece-fields">
        {(['readyFrom', 'readyTo', 'taste'] as const).map((field) => (
          <NumberField
            key={field}
            label={say(`ageing:care.field.${field}`)}
            value={draft[field]}
            unit={field === 'taste' ? '' : say('ageing:care.days')}
            width={field === 'taste' ? 8 : 4}
            error={wrong.includes(field) ? say('ageing:care.wrong') : undefined}
            onChange={(text) => setDraft({ ...draft, [field]: text })}
          />
        ))}
      </div>
      <p className="place-acts">
        <button type="submit" className={`button button-desk ${onCancel === null ? 'button-second' : 'button-main'}`}>
          <span>{say('ageing:care.keep')}</span>
        </button>
        {onCancel === null ? null : <Button onClick={onCancel}>{say('ageing:cancel')}</Button>}
      </p>
    </form>
  );
}
const MOST_STAYS = 6;
const BLANK_STAY = { days: '', temperatureC: '', humidityPercent: '', turn: '', brush: '', wash: '', weigh: '' };
