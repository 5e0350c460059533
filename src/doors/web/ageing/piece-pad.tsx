import { useState, type ReactNode } from 'react';
import { displayValue, QUANTITIES } from '../../../make/quantity.ts';
import type { PieceRecord } from '../../../record/piece-record.ts';
import { useReader } from '../device/reader.tsx';
import { CoarsePage, FinePage } from '../pad/pad-pages.tsx';
import type { PadBlock } from '../pad/pad-model.ts';
import { TypePad } from '../pad/type-pad.tsx';
import { usePadUnits } from '../pad/pad-units.ts';
import { VatButton } from '../vat/vat-button.tsx';
import '../pad/pad.css';

const SMALL_KG = 1; // our own choice: below it a kitchen scale's grams count
const BEFORE_EXPECTED = 2;

/** The two-pick pad for the scale in the ageing room: grams for small cheeses, kilograms to ten grams for large ones. */
export function PiecePad({
  piece,
  onWeighed,
  onBack,
}: {
  readonly piece: PieceRecord;
  readonly onWeighed: (massKg: number) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say } = useReader();
  const { unitsOf, switchUnits } = usePadUnits();
  const lastKg = piece.weighings.at(-1)?.massKg ?? 0.5;
  const quantity = lastKg < SMALL_KG ? 'pieceG' : 'massKg';
  const units = unitsOf(quantity);
  const likely = displayValue({ quantity, value: quantity === 'pieceG' ? 1000 * lastKg : lastKg, units });
  const first = Math.max(0, Math.floor(likely.value / QUANTITIES[quantity].tileStep) - COARSE_AHEAD - BEFORE_EXPECTED);
  const block: PadBlock = { quantity, sample: 'cheese', unit: likely.symbol, first, name: say('ageing:pad.weight') };
  const [page, setPage] = useState<'coarse' | 'type' | number>('coarse');
  const keep = (value: number): void => onWeighed(quantity === 'pieceG' ? value / 1000 : value);
  return (
    <section className="pad piece-pad" aria-label={say('ageing:act.weigh')}>
      {page === 'coarse' ? (
        <CoarsePage
          key={block.unit}
          block={block}
          units={units}
          keys
          onPick={setPage}
          onType={() => setPage('type')}
          onUnits={() => switchUnits(quantity)}
        />
      ) : null}
      {typeof page === 'number' ? (
        <FinePage
          block={block}
          coarse={page}
          units={units}
          onPick={keep}
          onBack={() => setPage('coarse')}
          onType={() => setPage('type')}
        />
      ) : null}
      {page === 'type' ? <TypePad block={block} units={units} onValue={keep} onBack={() => setPage('coarse')} /> : null}
      <VatButton className="vat-back" keyHint="Escape" onAct={() => (page === 'coarse' ? onBack() : setPage('coarse'))}>
        {say('ageing:cancel')}
      </VatButton>
    </section>
  );
}
/** A cheese loses weight: what is likely stands behind what it weighed last. */
const COARSE_AHEAD = 1;
