import { useState, type ReactNode } from 'react';
import { takenByCheese } from '../../../exchange/ageing/brine-book.ts';
import { readTyped } from '../../../exchange/typed-quantity.ts';
import type { KeepingBody } from '../../../record/keeping-events.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { NumberField } from '../look/number-field.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import type { OpenUse } from './brine-view.ts';

const WATER_PER_SALT = 2; // g/g: common practice (no source)

/** A batch through the brine: one of those on record in one tap, or any cheese by its weight and salt. */
export function BrineUse({
  uses,
  onUse,
  onBack,
}: {
  readonly uses: readonly OpenUse[];
  readonly onUse: (body: KeepingBody<'brineUsed'>) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const us = write.units === 'us';
  const [mass, setMass] = useState('');
  const [salt, setSalt] = useState('1.5');
  const [isWrong, setWrong] = useState(false);
  const keep = (): void => {
    const kg = readTyped({ text: mass, field: 'mass', unit: us ? 'lb' : 'kg', into: 'kg' });
    const percent = readTyped({ text: salt, field: 'salt' });
    if ('problem' in kg || 'problem' in percent || kg.value <= 0 || percent.value < 0 || percent.value > 8)
      return setWrong(true);
    onUse({
      cheeseKg: kg.value,
      ...takenByCheese({ cheeseKg: kg.value, saltPercent: percent.value, waterPerSalt: WATER_PER_SALT }),
    });
  };
  return (
    <section className="brine-form" aria-label={say('brine:use.title')}>
      <h3>{say('brine:use.title')}</h3>
      {uses.length === 0 ? null : (
        <div className="brine-asks">
          {uses.map(({ batchId, name, at, cheeseKg, body }) => (
            <VatButton key={batchId} className="vat-lesser" keeps onAct={() => onUse(body)}>
              {say('brine:use.batch', { name, day: write.shortDate(at), mass: write.kilograms(cheeseKg).text })}
            </VatButton>
          ))}
        </div>
      )}
      <form
        className="brine-form"
        onSubmit={(event) => {
          event.preventDefault();
          keep();
        }}
      >
        <div className="brine-fields">
          <NumberField label={say('brine:use.mass')} value={mass} unit={us ? 'lb' : 'kg'} onChange={setMass} />
          <NumberField
            label={say('brine:use.salt')}
            hint={say('brine:use.saltHint')}
            value={salt}
            unit="%"
            width={4}
            onChange={setSalt}
          />
        </div>
        {isWrong ? (
          <p className="field-error" role="alert">
            {say('brine:use.wrong')}
          </p>
        ) : null}
        <p className="brine-cares">
          <button type="submit" className="button button-main button-desk">
            <span>{say('brine:use.keep')}</span>
          </button>
          <Button onClick={onBack}>{say('brine:cancel')}</Button>
        </p>
      </form>
    </section>
  );
}
