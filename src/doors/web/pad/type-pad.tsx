import { useState, type ReactNode } from 'react';
import { displayValue, parseTyped, type UnitSystem } from '../../../make/quantity.ts';
import { useReader } from '../device/reader.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import type { PadBlock } from './pad-model.ts';
import { keysShown, MOST_KEYS } from './typed-keys.ts';

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'] as const;

/** Digits with the point fixed by the quantity: three keys "642" are always 6.42. What cannot be is not saved but stays. */
export function TypePad({
  block,
  units,
  onValue,
  onBack,
}: {
  readonly block: PadBlock;
  readonly units: UnitSystem;
  readonly onValue: (value: number) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const [keys, setKeys] = useState('');
  const [tried, setTried] = useState(false);
  const typed = parseTyped({ quantity: block.quantity, keys, units, sample: block.sample });
  const name = block.name ?? say(`vat:pad.quantity.${block.quantity}`);
  const press = (key: string): void => {
    setTried(false);
    setKeys((before) => (before.length < MOST_KEYS ? before + key : before));
  };
  const keep = (): void => {
    if (typed.verdict === 'accepted') onValue(typed.value);
    else setTried(true);
  };
  const meant = typed.verdict === 'accepted' ? null : typed.meant;
  return (
    <section className="pad-block" aria-label={name}>
      <h2>{name}</h2>
      <output className="pad-field" aria-live="polite">
        <span className="numerals">{write.typed(keysShown({ keys, quantity: block.quantity, units }))}</span>
        <span className="pad-unit">{block.unit}</span>
      </output>
      {!tried || typed.verdict === 'accepted' ? null : (
        <div className="pad-doubt" role="alert">
          <p>
            {typed.verdict === 'refused'
              ? say('vat:pad.impossible', { expected: typed.problem.expected })
              : say('vat:pad.doubtful')}
          </p>
          <div className="pad-row">
            {meant === null ? null : (
              <VatButton className="pad-rare" onAct={() => onValue(meant.value)}>
                {say('vat:pad.meant', { value: shownText({ block, units, write, value: meant.value }) })}
              </VatButton>
            )}
            <VatButton className="pad-rare" onAct={() => setKeys('')}>
              {say('vat:pad.typeAgain')}
            </VatButton>
            {typed.verdict === 'doubtful' ? (
              <VatButton className="pad-rare" onAct={() => onValue(typed.value)}>
                {say('vat:pad.keep', { value: shownText({ block, units, write, value: typed.value }) })}
              </VatButton>
            ) : null}
          </div>
        </div>
      )}
      <div className="pad-tiles">
        {DIGITS.map((digit) => (
          <VatButton key={digit} className="pad-tile pad-key numerals" keyHint={digit} onAct={() => press(digit)}>
            {digit}
          </VatButton>
        ))}
        <VatButton className="pad-tile pad-key pad-word" keyHint="Backspace" onAct={() => setKeys(keys.slice(0, -1))}>
          {say('vat:pad.delete')}
        </VatButton>
        <VatButton className="pad-tile pad-key numerals" keyHint="0" onAct={() => press('0')}>
          0
        </VatButton>
        <VatButton className="pad-tile pad-key pad-word pad-keep" keyHint="Enter" disabled={keys === ''} onAct={keep}>
          {say('vat:pad.save')}
        </VatButton>
      </div>
      <VatButton className="pad-step" onAct={onBack}>
        {say('vat:pad.tiles')}
      </VatButton>
    </section>
  );
}

function shownText(input: {
  readonly block: PadBlock;
  readonly units: UnitSystem;
  readonly write: ReturnType<typeof useReader>['write'];
  readonly value: number;
}): string {
  const shown = displayValue({ quantity: input.block.quantity, value: input.value, units: input.units });
  return `${input.write.number(shown.value, shown.decimals)}\u202F${shown.symbol}`.trim();
}
