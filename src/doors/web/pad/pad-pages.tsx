import { useState, type ReactNode } from 'react';
import type { UnitSystem } from '../../../make/quantity.ts';
import { useReader } from '../device/reader.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import { COARSE_TILES, coarseTiles, fineTiles, type PadBlock } from './pad-model.ts';
import { otherUnit } from './pad-units.ts';

/** Six whole-number tiles in rising order, and the ways to the next six or to typing. */
export function CoarsePage({
  block,
  units,
  keys,
  onPick,
  onType,
  onUnits,
}: {
  readonly block: PadBlock;
  readonly units: UnitSystem;
  /** Digits 1 to 6 pick tiles of one block only. */
  readonly keys: boolean;
  readonly onPick: (coarse: number) => void;
  readonly onType: () => void;
  /** Turns to the other units of the quantity. */
  readonly onUnits: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const unit = otherUnit({ quantity: block.quantity, units });
  const [first, setFirst] = useState(block.first);
  const name = blockName(say, block);
  return (
    <section className="pad-block" aria-label={name}>
      <h2>
        {name} <Where block={block} />
      </h2>
      <div className="pad-tiles">
        {coarseTiles({ block, first, units, write }).map((tile, place) => (
          <VatButton
            key={tile.index}
            className="pad-tile numerals"
            {...(keys ? { keyHint: String(place + 1) } : {})}
            aria-label={say('vat:pad.coarse', { quantity: name, value: tile.text })}
            onAct={() => onPick(tile.index)}
          >
            {tile.text}
          </VatButton>
        ))}
      </div>
      <div className="pad-steps">
        <VatButton
          className="pad-step"
          {...(keys ? { keyHint: 'ArrowDown' } : {})}
          aria-label={say('vat:pad.lowerOf', { quantity: name })}
          onAct={() => setFirst(first - COARSE_TILES)}
        >
          {say('vat:pad.lower')}
        </VatButton>
        <VatButton
          className="pad-step"
          {...(keys ? { keyHint: 'ArrowUp' } : {})}
          aria-label={say('vat:pad.higherOf', { quantity: name })}
          onAct={() => setFirst(first + COARSE_TILES)}
        >
          {say('vat:pad.higher')}
        </VatButton>
        <VatButton className="pad-step" aria-label={say('vat:pad.typeOf', { quantity: name })} onAct={onType}>
          {say('vat:pad.type')}
        </VatButton>
        {unit === null ? null : (
          <VatButton
            className="pad-step"
            aria-label={say('vat:pad.unitOf', {
              quantity: block.name ?? say(`vat:pad.quantity.${block.quantity}`),
              unit,
            })}
            onAct={onUnits}
          >
            {say('vat:pad.unit', { unit })}
          </VatButton>
        )}
      </div>
    </section>
  );
}

/** Ten tiles to the last digit; a tap saves at once. */
export function FinePage({
  block,
  coarse,
  units,
  onPick,
  onBack,
  onType,
}: {
  readonly block: PadBlock;
  readonly coarse: number;
  readonly units: UnitSystem;
  readonly onPick: (value: number) => void;
  readonly onBack: () => void;
  readonly onType: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const name = blockName(say, block);
  return (
    <section className="pad-block" aria-label={name}>
      <h2>
        {name} <Where block={block} />
      </h2>
      <div className="pad-tiles">
        {fineTiles({ quantity: block.quantity, coarse, units, write }).map((tile) => (
          <VatButton
            key={tile.index}
            className="pad-tile numerals"
            keyHint={String(tile.index)}
            keeps
            onAct={() => onPick(tile.value)}
          >
            {tile.text}
          </VatButton>
        ))}
        <VatButton className="pad-tile pad-word" onAct={onBack}>
          {say('vat:pad.other')}
        </VatButton>
        <VatButton className="pad-tile pad-word" onAct={onType}>
          {say('vat:pad.type')}
        </VatButton>
      </div>
    </section>
  );
}

/** Where it is read; weights and amounts are not read in anything. */
function Where({ block }: { readonly block: PadBlock }): ReactNode {
  const { say } = useReader();
  const { quantity, sample } = block;
  const isHeld = quantity === 'massKg' || quantity === 'wheyL' || quantity === 'iceWaterC';
  return isHeld || block.name !== undefined ? null : (
    <span className="pad-where">{say(`vat:pad.where.${sample}`)}</span>
  );
}

const blockName = (say: ReturnType<typeof useReader>['say'], block: PadBlock): string => {
  const name = block.name ?? say(`vat:pad.quantity.${block.quantity}`);
  return block.unit === '' ? name : `${name}, ${block.unit}`;
};
