import type { ReactNode } from 'react';
import type { KeptThings } from '../../../record/kept-things.ts';
import type { PieceRecord } from '../../../record/piece-record.ts';
import { useReader } from '../device/reader.tsx';
import { useMay } from '../log/may.tsx';
import type { Note } from '../log/event-log.ts';
import { Button } from '../look/button.tsx';
import { historyLines, type HistoryLine } from './piece-view.ts';

/** What was done, newest first; whatever was noted by mistake can be taken back, and the log keeps that too. */
export function PieceHistory({
  piece,
  kept,
  onNote,
}: {
  readonly piece: PieceRecord;
  readonly kept: KeptThings;
  readonly onNote: (notes: readonly Omit<Note, 'kinds'>[], words: string) => void;
}): ReactNode {
  const { say, write } = useReader();
  const may = useMay();
  const lines = historyLines({ piece, kept, say, write });
  const line = ({ eventId, when, words, canUndo }: HistoryLine): ReactNode => (
    <li key={eventId}>
      <span className="history-when">{when}</span>
      <span className="history-words">{words}</span>
      {canUndo && may.takeBack(piece.pieceId, [eventId]) ? (
        <Button
          kind="quiet"
          aria-label={say('ageing:history.undoOf', { words })}
          onClick={() => onNote([{ kind: 'retracted', streamId: piece.pieceId, body: { replaces: eventId } }], say('ageing:history.undone'))} // prettier-ignore
        >
          {say('ageing:history.undo')}
        </Button>
      ) : null}
    </li>
  );
  return (
    <section className="piece-history" aria-labelledby="history-title">
      <h2 id="history-title">{say('ageing:history.title')}</h2>
      <ol>{lines.slice(0, SHOWN).map(line)}</ol>
      {lines.length <= SHOWN ? null : (
        <details>
          <summary>{say('ageing:history.all')}</summary>
          <ol>{lines.slice(SHOWN).map(line)}</ol>
        </details>
      )}
    </section>
  );
}
const SHOWN = 6;
