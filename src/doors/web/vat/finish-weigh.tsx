import type { ReactNode } from 'react';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useReader } from '../device/reader.tsx';
import type { Entry } from './actions.ts';
import { piecesWeighed } from './finish-left.ts';
import { VatButton } from './vat-button.tsx';

/** The scale at the end: all of it at once, or piece by piece with a running total. */
export function FinishWeigh({
  record,
  onWeigh,
  onEntries,
}: {
  readonly record: BatchRecord;
  readonly onWeigh: (what: 'cheese' | 'piece') => void;
  readonly onEntries: (entries: readonly Entry[], said: string) => void;
}): ReactNode {
  const { say, write } = useReader();
  const { count, totalKg } = piecesWeighed(record);
  const total = write.kilograms(totalKg).text;
  // Rounded as the scale is: a sum of readings holds no more digits than they did.
  const massKg = Math.round(totalKg * 1000) / 1000;
  const isCounted = record.weighed.some((one) => one.what === 'cheese' && Math.abs(one.massKg - massKg) < 1e-9);
  return (
    <div className="finish-weigh">
      {count === 0 ? null : <p role="status">{say('vat:finish.pieces', { count, total })}</p>}
      <div className="finish-asks">
        <VatButton className="vat-lesser" onAct={() => onWeigh('piece')}>
          {say(count === 0 ? 'vat:finish.weighPiece' : 'vat:finish.nextPiece')}
        </VatButton>
        {count === 0 || isCounted ? (
          <VatButton className="vat-second" keyHint="R" onAct={() => onWeigh('cheese')}>
            {say('vat:finish.weigh')}
          </VatButton>
        ) : (
          <VatButton
            className="vat-second"
            onAct={
              () =>
              onEntries([{ kind: 'weighed', body: { what: 'cheese', massKg } }], say('vat:finish.piecesKept', { total, count })) // prettier-ignore
            }
          >
            {say('vat:finish.piecesAll', { total })}
          </VatButton>
        )}
      </div>
    </div>
  );
}
