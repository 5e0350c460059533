import type { ReactNode } from 'react';
import type { CareJob } from '../../../record/care-plan.ts';
import type { PieceRecord } from '../../../record/piece-record.ts';
import { useReader } from '../device/reader.tsx';
import { May, useMay } from '../log/may.tsx';
import type { Note } from '../log/event-log.ts';
import { VatButton } from '../vat/vat-button.tsx';
import { KIND_OF_ACT, type PieceAct } from './piece-act-kinds.ts';

const PLAIN = [
  ['turn', 'pieceTurned'],
  ['brush', 'pieceBrushed'],
  ['wash', 'pieceWashed'],
] as const;
const WITH_MORE: readonly PieceAct[] = ['taste', 'grow', 'move', 'wax', 'pack', 'split', 'end'];

/** What can be done with a cheese in the hand: one tap for what says itself, a page for what wants a figure or words. */
export function PieceActs({
  piece,
  due,
  onAct,
  onNote,
}: {
  readonly piece: PieceRecord;
  /** Jobs of today. */
  readonly due: readonly CareJob[];
  readonly onAct: (act: PieceAct) => void;
  readonly onNote: (notes: readonly Omit<Note, 'kinds'>[], words: string) => void;
}): ReactNode {
  const { say } = useReader();
  const may = useMay();
  const name = piece.made?.name ?? '';
  const isDue = (job: CareJob): string => (due.includes(job) ? 'piece-due' : '');
  const plain = PLAIN.filter(([, kind]) => may.note(kind, piece.pieceId));
  const withMore = WITH_MORE.filter((act) => may.note(KIND_OF_ACT[act], piece.pieceId));
  return (
    <section className="piece-acts" aria-label={say('ageing:piece.acts')}>
      {due.filter((job) => job !== 'look').length === 0 ? null : (
        <p className="piece-today">{say('ageing:piece.today', { jobs: due.filter((job) => job !== 'look').map((job) => say(`ageing:job.${job}`)).join(', ') })}</p> // prettier-ignore
      )}
      <div className="piece-row">
        <May note={KIND_OF_ACT.weigh} of={piece.pieceId}>
          <VatButton className={`vat-second ${isDue('weigh')}`} keyHint="W" onAct={() => onAct('weigh')}>
            {say('ageing:act.weigh')}
          </VatButton>
        </May>
        {plain.map(([job, kind]) => (
          <VatButton
            key={job}
            className={`vat-lesser ${isDue(job)}`}
            onAct={() =>
              onNote([{ kind, streamId: piece.pieceId, body: {} }], say(`ageing:noted.${job}`, { piece: name }))
            }
          >
            {say(`ageing:act.${job}`)}
          </VatButton>
        ))}
        {withMore.map((act) => (
          <VatButton
            key={act}
            className={`vat-lesser ${act === 'taste' || act === 'move' || act === 'wax' || act === 'pack' ? isDue(act) : ''}`}
            onAct={() => onAct(act)}
          >
            {say(`ageing:act.${act}`)}
          </VatButton>
        ))}
      </div>
    </section>
  );
}
