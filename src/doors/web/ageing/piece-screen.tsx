import { useMemo, useState, type ReactNode } from 'react';
import { Link, useSearchParams } from 'wouter';
import { isDemoStream } from '../../../record/event.ts';
import type { PieceRecord } from '../../../record/piece-record.ts';
import type { KeptThings } from '../../../record/kept-things.ts';
import { careJobs } from '../../../record/care-calendar.ts';
import { dayNumber } from '../../../record/day-number.ts';
import { useReader } from '../device/reader.tsx';
import { useMay } from '../log/may.tsx';
import { useLog } from '../log/log-provider.tsx';
import { Notice } from '../look/notice.tsx';
import { UndoBar } from '../look/undo-bar.tsx';
import { CarePart } from './care-part.tsx';
import { PieceActs } from './piece-acts.tsx';
import { isPieceAct, KIND_OF_ACT, type PieceAct } from './piece-act-kinds.ts';
import { PieceForm } from './piece-forms.tsx';
import { PieceHistory } from './piece-history.tsx';
import { PieceWeight } from './piece-weight.tsx';
import { placeLine } from './place-words.ts';
import { rawAge, rawLine, readyLine } from './ready-words.ts';
import { useDarkHere } from './use-dark-here.ts';
import { localDayNumber, noonOf, useKeeping, useKept } from './use-kept.ts';
import './ageing.css';
import './piece.css';

/** One cheese: when it is ready, how it loses weight, what is to be done, what was done. */
export function PieceScreen({ pieceId }: { readonly pieceId: string }): ReactNode {
  const { say, settings } = useReader();
  useDarkHere(settings);
  const { kept, now, today } = useKept();
  const piece = kept.pieces.get(`piece:${pieceId}`);
  return (
    <div className="ageing piece">
      <p className="sum-back">
        <Link href="/ageing">{say('ageing:back')}</Link>
      </p>
      {piece === undefined ? (
        <h1>{say('ageing:noPiece')}</h1>
      ) : (
        <Piece piece={piece} kept={kept} now={now} today={today} />
      )}
    </div>
  );
}

function Piece({
  piece,
  kept,
  now,
  today,
}: {
  readonly piece: PieceRecord;
  readonly kept: KeptThings;
  readonly now: number;
  readonly today: number;
}): ReactNode {
  const { say, write } = useReader();
  const { log } = useLog();
  const keeping = useKeeping();
  const may = useMay();
  const [asked] = useSearchParams();
  const first = asked.get('do') ?? '';
  const [act, setAct] = useState<PieceAct | null>(
    isPieceAct(first) && may.note(KIND_OF_ACT[first], piece.pieceId) ? first : null,
  );
  const place = kept.places.get(piece.placeId ?? '') ?? null;
  const { made } = piece;
  const due = useMemo(() => {
    const away = kept.away.map(({ from, to }) => ({ from: dayNumber(from), to: dayNumber(to) }));
    return careJobs({ piece, dayAt: localDayNumber, today, until: today, away }).map(({ job }) => job);
  }, [piece, kept.away, today]);
  if (made === null) return null;
  const age = rawAge({ piece, kept, today });
  const ready = readyLine({ piece, today, say, write });
  const note = async (notes: Parameters<typeof keeping.note>[0], words: string): Promise<void> => {
    if (await keeping.note(notes, words)) setAct(null);
  };
  return (
    <>
      <header>
        <h1>{made.name}</h1>
        <p className="piece-about">
          {say('ageing:piece.about', {
            cheese: made.cheese,
            day: write.date(noonOf(made.madeOn)),
            count: today - dayNumber(made.madeOn),
          })}
          {isDemoStream(piece.pieceId) ? <span className="kept-demo">{say('ageing:demo')}</span> : null}
        </p>
        <p className="piece-about">{whereWords({ piece, kept, say, write })}</p>
        {made.lotCode === undefined || made.lotCode === '' ? null : (
          <p className="piece-about">
            {say('ageing:piece.lot', { lot: made.lotCode })}{' '}
            {made.batch === undefined ? null : (
              <Link href={`/record/${made.batch.replace(/^batch:/, '')}`}>{say('ageing:piece.record')}</Link>
            )}
          </p>
        )}
        {made.from === undefined ? null : (
          <p className="piece-about">
            {say('ageing:piece.from')}{' '}
            <Link href={`/ageing/${made.from.replace(/^piece:/, '')}`}>
              {kept.pieces.get(made.from)?.made?.name ?? ''}
            </Link>
          </p>
        )}
      </header>
      {keeping.failed === null ? null : <Notice kind="act">{say('ageing:failed', { why: keeping.failed })}</Notice>}
      {keeping.last === null ? null : (
        <UndoBar undoLabel={say('ageing:undo')} onUndo={() => void keeping.undo()} onGone={keeping.forget} stays>
          {keeping.last.words}
        </UndoBar>
      )}
      {piece.goneAt === null ? (
        <section className="piece-ready" aria-label={say('ageing:piece.when')}>
          {ready === '' ? null : <p className="piece-window">{ready}</p>}
          {age === null ? null : <p>{rawLine({ age, today, say, write })}</p>}
        </section>
      ) : (
        <Gone piece={piece} kept={kept} />
      )}
      {act === null ? (
        piece.goneAt === null ? (
          <PieceActs piece={piece} due={due} onAct={setAct} onNote={(notes, words) => void note(notes, words)} />
        ) : null
      ) : (
        <PieceForm
          act={act}
          piece={piece}
          kept={kept}
          today={today}
          newStreamId={(type) => log.newStreamId(type)}
          onNote={(notes, words) => void note(notes, words)}
          onBack={() => setAct(null)}
        />
      )}
      {piece.goneAt === null ? (
        <section className="piece-ready" aria-label={say('ageing:piece.rests')}>
          <p className="piece-source">
            {ready === '' ? null : say('ageing:source', { source: piece.care?.source ?? '' })}{' '}
            {age === null ? null : say('ageing:source', { source: age.source })}
          </p>
          <p className="piece-limits">{say(made.treatment === 'raw' ? 'ageing:limitsRaw' : 'ageing:limits')}</p>
        </section>
      ) : null}
      <PieceWeight piece={piece} place={place} now={now} today={today} />
      {piece.goneAt === null ? (
        <CarePart piece={piece} today={today} onNote={(notes, words) => void note(notes, words)} />
      ) : null}
      <PieceHistory piece={piece} kept={kept} onNote={(notes, words) => void note(notes, words)} />
    </>
  );
}

function whereWords({
  piece,
  kept,
  say,
  write,
}: Pick<ReturnType<typeof useReader>, 'say' | 'write'> & {
  readonly piece: PieceRecord;
  readonly kept: KeptThings;
}): string {
  const place = kept.places.get(piece.placeId ?? '');
  const rind = say(`ageing:rind.${piece.rind}`);
  if (place === undefined) return rind;
  const air = placeLine({ place, say, write });
  const name = place.told?.name ?? '';
  const where = piece.shelf === null ? name : say('ageing:piece.shelf', { place: name, shelf: piece.shelf });
  return [where, ...(air === '' ? [] : [air]), rind].join(' · ');
}

/** What became of it: its heirs, or how it went. */
function Gone({ piece, kept }: { readonly piece: PieceRecord; readonly kept: KeptThings }): ReactNode {
  const { say, write } = useReader();
  if (piece.split !== null) {
    return (
      <section className="piece-ready">
        <p className="piece-window">{say('ageing:piece.cut', { day: write.day(piece.split.at) })}</p>
        <ul className="piece-heirs">
          {piece.split.into.map(({ piece: heir, massKg }) => (
            <li key={heir}>
              <Link href={`/ageing/${heir.replace(/^piece:/, '')}`}>{kept.pieces.get(heir)?.made?.name ?? heir}</Link>
              {massKg === undefined ? null : ` ${write.kilograms(massKg).text}`}
            </li>
          ))}
        </ul>
      </section>
    );
  }
  if (piece.ended === null) return null;
  return (
    <section className="piece-ready">
      <p className="piece-window">{say(`ageing:gone.${piece.ended.way}`, { day: write.day(piece.ended.at) })}</p>
      {piece.ended.to === undefined ? null : <p>{say('ageing:gone.to', { to: piece.ended.to })}</p>}
      {piece.ended.because === undefined ? null : <p>{piece.ended.because}</p>}
    </section>
  );
}
