import { useState, type ReactNode } from 'react';
import type { Care } from '../../../record/care-plan.ts';
import { datedStays } from '../../../record/care-calendar.ts';
import { dayText } from '../../../record/day-number.ts';
import type { PieceRecord } from '../../../record/piece-record.ts';
import { useReader } from '../device/reader.tsx';
import { May } from '../log/may.tsx';
import type { Note } from '../log/event-log.ts';
import { Button } from '../look/button.tsx';
import { CareForm } from './care-form.tsx';
import { stayWords } from './care-words.ts';
import { localDayNumber, noonOf } from './use-kept.ts';

/** Its care: one room after the other, each with its rhythm; the maker changes it here. */
export function CarePart({
  piece,
  today,
  onNote,
}: {
  readonly piece: PieceRecord;
  readonly today: number;
  readonly onNote: (notes: readonly Omit<Note, 'kinds'>[], words: string) => void;
}): ReactNode {
  const { say, write } = useReader();
  const [changing, setChanging] = useState(false);
  const stays = datedStays({ piece, dayAt: localDayNumber, today });
  if (piece.care === null) return null;
  return (
    <section className="care" aria-labelledby="care-title">
      <h2 id="care-title">{say('ageing:care.title')}</h2>
      {changing ? (
        <CareForm
          care={piece.care}
          onCancel={() => setChanging(false)}
          onKeep={(care: Care) => {
            onNote([{ kind: 'pieceReplanned', streamId: piece.pieceId, body: { care } }], say('ageing:care.kept'));
            setChanging(false);
          }}
        />
      ) : (
        <>
          <ol className="care-stays">
            {stays.map(({ stay, from, to }, i) => (
              <li key={`${from} ${i}`} aria-current={from <= today && today < to ? 'step' : undefined}>
                <span className="history-when">
                  {say('ageing:care.since', { day: write.shortDate(noonOf(dayText(from))) })}
                </span>
                <span>{stayWords({ stay, say, write })}</span>
              </li>
            ))}
          </ol>
          <p className="piece-source">{say('ageing:source', { source: piece.care.source })}</p>
          <May note="pieceReplanned" of={piece.pieceId}>
            <Button onClick={() => setChanging(true)}>{say('ageing:care.change')}</Button>
          </May>
        </>
      )}
    </section>
  );
}
