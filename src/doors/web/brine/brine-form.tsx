import { useState, type ReactNode } from 'react';
import { readTyped } from '../../../exchange/typed-quantity.ts';
import type { KeepingBody } from '../../../record/keeping-events.ts';
import { brineToMake, newBrineDressing, NEW_BRINE_CALCIUM_G_PER_L } from '../../../science/brine-amounts.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Field } from '../look/field.tsx';
import { NumberField } from '../look/number-field.tsx';
import { localDay } from '../plan/wall-clock.ts';

const CHEESE_PH = 5.2; // pressed and stretched cheese at brining, common practice (no source)
const TAP_MEQ_PER_L = 2; // soft to middling water, common practice (no source)
const ROOM_C = 12; // common practice (no source)

/** One question: how many litres, how strong. Salt and water by weight, calcium and vinegar, and then it is made. */
export function BrineForm({
  now,
  onMade,
  onCancel,
}: {
  readonly now: number;
  readonly onMade: (body: KeepingBody<'brineMade'>) => void;
  readonly onCancel: (() => void) | null;
}): ReactNode {
  const { say, write } = useReader();
  const us = write.units === 'us';
  const [name, setName] = useState(() => say('brine:new.defaultName'));
  const [litres, setLitres] = useState(us ? '2' : '8');
  const [percent, setPercent] = useState('18');
  const volume = readTyped({ text: litres, field: 'litres', unit: us ? 'us-gallon' : 'L', into: 'L' });
  const strength = readTyped({ text: percent, field: 'percent' });
  const volumeL = 'problem' in volume || volume.value <= 0 || volume.value > 5000 ? null : volume.value;
  const aim = 'problem' in strength || strength.value < 1 || strength.value > MOST_PERCENT ? null : strength.value;
  const amounts =
    volumeL === null || aim === null ? null : brineToMake({ volumeL, saltFraction: aim / 100, temperatureC: ROOM_C });
  const dressing =
    volumeL === null ? null : newBrineDressing({ volumeL, targetPH: CHEESE_PH, alkalinityMeqPerL: TAP_MEQ_PER_L });
  return (
    <form
      className="brine-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (volumeL === null || aim === null || name.trim() === '') return;
        onMade({
          name: name.trim(),
          madeOn: localDay(now),
          volumeL,
          strength: { value: aim, unit: 'percent-by-mass' },
          aimPercent: aim,
          calciumGPerL: NEW_BRINE_CALCIUM_G_PER_L,
        });
      }}
    >
      <div className="brine-fields">
        <NumberField
          label={say('brine:new.litres')}
          value={litres}
          unit={us ? 'gal' : 'L'}
          error={volumeL === null ? say('brine:new.wrongLitres') : undefined}
          onChange={setLitres}
        />
        <NumberField
          label={say('brine:new.percent')}
          hint={say('brine:new.percentHint')}
          value={percent}
          unit="%"
          width={4}
          error={aim === null ? say('brine:new.wrongPercent') : undefined}
          onChange={setPercent}
        />
        <Field label={say('brine:new.name')}>
          {(ties) => (
            <input
              {...ties}
              className="field-input"
              maxLength={60}
              autoComplete="off"
              value={name}
              onChange={(event) => setName(event.target.value)}
            />
          )}
        </Field>
      </div>
      {amounts === null || dressing === null ? null : (
        <div aria-live="polite">
          <p className="brine-recipe">
            {say('brine:new.recipe', {
              salt: write.kilograms(amounts.saltKg).text,
              water: write.kilograms(amounts.waterKg).text,
            })}
          </p>
          <p>
            {say('brine:new.dressing', {
              calcium: write.millilitres(dressing.calciumSolutionML).text,
              vinegar: write.millilitres(dressing.vinegarML).text,
            })}
          </p>
        </div>
      )}
      <p className="brine-caution">{say('brine:new.caution')}</p>
      <p className="brine-cares">
        <button type="submit" className="button button-main button-desk">
          <span>{say('brine:new.keep')}</span>
        </button>
        {onCancel === null ? null : <Button onClick={onCancel}>{say('brine:cancel')}</Button>}
      </p>
    </form>
  );
}
const MOST_PERCENT = 26.3; // saturated at 0 °C, salt trade association table
