import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Field } from '../look/field.tsx';
import { NumberField } from '../look/number-field.tsx';
import { SelectField } from '../look/select-field.tsx';
import { homeMilkOf, onePupil, weightOf, type Pupil, type Pupils } from './pupils.ts';

/** Whose pieces go home: a row a pupil, all of it optional. */
export function PupilsForm({
  pupils,
  onChange,
}: {
  readonly pupils: Pupils;
  readonly onChange: (pupils: Pupils) => void;
}): ReactNode {
  const { say, write } = useReader();
  const change = (at: number, part: Partial<Pupil>): void =>
    onChange({ ...pupils, pupils: pupils.pupils.map((one, index) => (index === at ? { ...one, ...part } : one)) });
  return (
    <section className="paper-pupils" aria-labelledby="paper-pupils">
      <h2 id="paper-pupils">{say('paper:pupils.title')}</h2>
      <p>{say('paper:pupils.lead')}</p>
      <div className="paper-pupil">
        <Field label={say('paper:pupils.left')}>
          {(ties) => (
            <input
              {...ties}
              className="field-input"
              type="time"
              value={pupils.leftColdAt}
              onChange={(event) => onChange({ ...pupils, leftColdAt: event.target.value })}
            />
          )}
        </Field>
      </div>
      {pupils.pupils.map((pupil, index) => (
        <fieldset key={index} className="paper-pupil">
          <legend>{say('paper:pupils.of', { number: index + 1 })}</legend>
          <Field label={say('paper:pupils.name')}>
            {(ties) => (
              <input
                {...ties}
                className="field-input"
                autoComplete="off"
                value={pupil.name}
                onChange={(event) => change(index, { name: event.target.value.slice(0, 60) })}
              />
            )}
          </Field>
          <NumberField
            label={say('paper:pupils.weight')}
            value={pupil.weightG}
            unit="g"
            onChange={(weightG) => change(index, { weightG: weightG.slice(0, 12) })}
            error={Number.isNaN(weightOf(pupil.weightG)) ? say('paper:pupils.wrongWeight') : undefined}
          />
          <NumberField
            label={say('paper:pupils.pot')}
            value={pupil.homeMilk}
            unit={pupil.units === 'us' ? 'qt' : 'L'}
            onChange={(homeMilk) => change(index, { homeMilk: homeMilk.slice(0, 12) })}
            error={Number.isNaN(homeMilkOf(pupil)) ? say('paper:pupils.wrongPot') : undefined}
          />
          <SelectField
            label={say('paper:pupils.units')}
            value={pupil.units}
            options={(['metric', 'us'] as const).map((value) => ({
              value,
              label: say(`app:device.unitSystems.${value}`),
            }))}
            onChange={(units) => change(index, { units })}
          />
          {pupils.pupils.length === 1 ? null : (
            <Button
              kind="quiet"
              onClick={() => onChange({ ...pupils, pupils: pupils.pupils.filter((_, at) => at !== index) })}
            >
              {say('paper:pupils.remove')}
            </Button>
          )}
        </fieldset>
      ))}
      <p>
        <Button onClick={() => onChange({ ...pupils, pupils: [...pupils.pupils, onePupil(write.units)] })}>
          {say('paper:pupils.add')}
        </Button>
      </p>
    </section>
  );
}
