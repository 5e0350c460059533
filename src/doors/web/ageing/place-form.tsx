import { useState, type ReactNode } from 'react';
import { PLACE_KINDS, type KeepingBody } from '../../../record/keeping-events.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Choice } from '../look/choice.tsx';
import { Field } from '../look/field.tsx';
import { AirFields, airOf, BLANK_AIR, type AirDraft } from './air-fields.tsx';

type Told = KeepingBody<'placeTold'>;

/** A place where cheese lies. A box in the fridge asks for its lid and towel, anything else for its air. */
export function PlaceForm({
  order,
  onKeep,
  onCancel,
}: {
  readonly order: number;
  readonly onKeep: (body: Told) => void;
  readonly onCancel: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const [kind, setKind] = useState<Told['kind']>('box');
  const [name, setName] = useState('');
  const [air, setAir] = useState<AirDraft>(BLANK_AIR);
  const [wrong, setWrong] = useState<'name' | 'air' | null>(null);
  const keep = (): void => {
    const read = airOf({ draft: air, isBox: kind === 'box', units: write.units });
    if (name.trim() === '') return setWrong('name');
    if (read === null) return setWrong('air');
    const { droplets: _seen, ...told } = read;
    onKeep({ name: name.trim(), kind, order, ...told });
  };
  return (
    <form
      className="place-form"
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <Choice
        label={say('ageing:place.kind')}
        value={kind}
        options={[...PLACE_KINDS].reverse().map((value) => ({ value, label: say(`ageing:place.kinds.${value}`) }))}
        onChange={setKind}
      />
      <Field
        label={say('ageing:place.name')}
        hint={say('ageing:place.nameHint')}
        error={wrong === 'name' ? say('ageing:place.noName') : undefined}
      >
        {(ties) => (
          <input
            {...ties}
            className="field-input"
            maxLength={80}
            autoComplete="off"
            value={name}
            onChange={(event) => setName(event.target.value)}
          />
        )}
      </Field>
      <AirFields draft={air} isBox={kind === 'box'} withDroplets={false} isWrong={wrong === 'air'} onChange={setAir} />
      <p className="place-acts">
        <button type="submit" className="button button-main button-desk">
          <span>{say('ageing:place.keep')}</span>
        </button>
        <Button onClick={onCancel}>{say('ageing:cancel')}</Button>
      </p>
    </form>
  );
}
