import type { ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import type { Note } from '../log/event-log.ts';
import { useReader } from '../device/reader.tsx';
import { useMay } from '../log/may.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import { isPieceAct, KIND_OF_ACT } from './piece-act-kinds.ts';
import { jobShape } from './job-shapes.ts';
import type { Round, RoundLine, RoundPlace } from './round-view.ts';
import './round.css';

/** The walk round: one verb and one mark a line, hollow until it is done as in the weeks below, in the order of the shelves; all that a tap can say is said by one at the end. */
export function RoundWalk({
  round,
  onNote,
  onAll,
}: {
  readonly round: Round;
  readonly onNote: (notes: readonly Omit<Note, 'kinds'>[]) => void;
  readonly onAll: () => void;
}): ReactNode {
  const { say } = useReader();
  const tap = (line: RoundLine): void => {
    if (line.note !== null) onNote([line.note]);
    else onNote([...line.doneBy].reverse().map((replaces) => ({ kind: 'retracted', streamId: line.pieceId, body: { replaces } }))); // prettier-ignore
  };
  return (
    <section className="round" aria-labelledby="round-title">
      <h2 id="round-title" className="out-of-sight">
        {say('ageing:round.title')}
      </h2>
      {round.places.map((place) => (
        <WalkedPlace key={place.placeId} place={place} onTap={tap} />
      ))}
      {round.all.length === 0 ? null : (
        <VatButton className="vat-main round-all" onAct={onAll}>
          {say('ageing:round.all', { count: round.all.length })}
        </VatButton>
      )}
      {round.open > 0 || round.next === null ? null : <p className="round-next">{round.next}</p>}
    </section>
  );
}

function WalkedPlace({
  place,
  onTap,
}: {
  readonly place: RoundPlace;
  readonly onTap: (line: RoundLine) => void;
}): ReactNode {
  return (
    <div className="round-place">
      <h3>
        {place.name}
        {place.line === '' ? null : <span className="round-air">{place.line}</span>}
      </h3>
      <ul className="round-lines">
        {place.lines.map((line, index) => (
          <WalkedLine
            key={line.key}
            line={line}
            isSamePiece={place.lines[index - 1]?.pieceId === line.pieceId}
            onTap={onTap}
          />
        ))}
      </ul>
    </div>
  );
}

function WalkedLine({
  line,
  isSamePiece,
  onTap,
}: {
  readonly line: RoundLine;
  /** A second job at the same cheese names it no more. */
  readonly isSamePiece: boolean;
  readonly onTap: (line: RoundLine) => void;
}): ReactNode {
  const { say } = useReader();
  const [, go] = useLocation();
  const may = useMay();
  const isDone = line.doneBy.length > 0;
  const isPlain = isDone || line.note !== null;
  // What was done is taken back by whoever noted it; what is noted by a page of the cheese begins there.
  const mayTap = isDone ? may.takeBack(line.pieceId, line.doneBy) : line.note === null ? isPieceAct(line.job) && may.note(KIND_OF_ACT[line.job], line.pieceId) : may.note(line.note.kind, line.pieceId); // prettier-ignore
  const short = line.pieceId.replace(/^piece:/, '');
  return (
    <li className={`round-line ${isDone ? 'round-done' : ''} ${isSamePiece ? 'round-same' : ''}`}>
      <span className="round-shelf numerals" aria-hidden={line.shelf === ''}>
        {isSamePiece ? '' : line.shelf}
      </span>
      <span className="round-words">
        <span className="round-verb">{line.verb}</span>
        {isSamePiece ? null : (
          <span className="round-what">
            <Link href={`/ageing/${short}`} className="round-piece">
              {line.piece}
            </Link>{' '}
            <span className="round-about">{line.about}</span>
          </span>
        )}
        {line.remark === '' ? null : <span className="round-remark">{line.remark}</span>}
      </span>
      {isPlain ? (
        <VatButton
          className="round-box"
          aria-pressed={isDone}
          disabled={!mayTap}
          aria-label={say('ageing:round.tick', { verb: line.verb, piece: line.piece })}
          onAct={() => onTap(line)}
        >
          <svg viewBox="-7 -7 14 14" aria-hidden="true" className="round-mark">
            <path d={jobShape(line.job)} />
          </svg>
        </VatButton>
      ) : (
        <VatButton
          className="round-box round-open"
          disabled={!mayTap}
          aria-label={say('ageing:round.tick', { verb: line.verb, piece: line.piece })}
          onAct={() => go(`/ageing/${short}?do=${line.job}`)}
        >
          <svg viewBox="-7 -7 14 14" aria-hidden="true" className="round-mark">
            <path d={jobShape(line.job)} transform="translate(-1.6 0) scale(0.8)" />
            <path d="M4.2-2.6L6.4 0 4.2 2.6" className="round-on" />
          </svg>
        </VatButton>
      )}
    </li>
  );
}
