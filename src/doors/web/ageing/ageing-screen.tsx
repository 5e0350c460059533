import { useMemo, type ReactNode } from 'react';
import { Link } from 'wouter';
import { careFeed } from '../../../exchange/ageing/care-feed.ts';
import { useWidth } from '../chart/use-width.ts';
import { useReader } from '../device/reader.tsx';
import { May, useMay } from '../log/may.tsx';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { UndoBar } from '../look/undo-bar.tsx';
import { saveText } from '../today/save-copy.ts';
import { AwayPart } from './away-part.tsx';
import { PlacesPart } from './places-part.tsx';
import { RoundWalk } from './round.tsx';
import { roundView } from './round-view.ts';
import { useDarkHere } from './use-dark-here.ts';
import { localDayNumber, useKeeping, useKept } from './use-kept.ts';
import { Weeks } from './weeks.tsx';
import { weeksView } from './weeks-view.ts';
import './ageing.css';

const WIDE_PX = 620;
/** Days back and ahead that the strip shows: fewer on a phone, where a day must stay wide enough to see. */
const SPAN = { narrow: { back: 7, ahead: 20 }, wide: { back: 14, ahead: 41 } } as const;

/** What must be turned, brushed, washed, weighed today, and how is each cheese doing? */
export function AgeingScreen(): ReactNode {
  const { say, write, settings } = useReader();
  useDarkHere(settings);
  const { log } = useLog();
  const { kept, now, today } = useKept();
  const keeping = useKeeping();
  const { ref, widthPx } = useWidth<HTMLDivElement>(340);
  const may = useMay();
  const whole = useMemo(() => roundView({ kept, today, say, write }), [kept, today, say, write]);
  const round = useMemo(() => ({ ...whole, all: whole.all.filter(({ kind, streamId }) => may.note(kind, streamId)) }), [whole, may]); // prettier-ignore
  const span = widthPx < WIDE_PX ? SPAN.narrow : SPAN.wide;
  const weeks = useMemo(() => weeksView({ kept, today, ...span, say, write }), [kept, today, span, say, write]);
  const isEmpty = weeks.rows.length === 0;
  const note = (notes: Parameters<typeof keeping.note>[0], words: string): void => void keeping.note(notes, words);
  return (
    <div className="ageing">
      <header className="ageing-head">
        <h1>{isEmpty ? say('ageing:title') : say('ageing:round.title')}</h1>
        <p className="ageing-day">{write.day(now)}</p>
      </header>
      {keeping.failed === null ? null : <Notice kind="act">{say('ageing:failed', { why: keeping.failed })}</Notice>}
      {isEmpty ? <p className="ageing-empty">{say('ageing:empty')}</p> : null}
      {isEmpty ? null : (
        <RoundWalk
          round={round}
          onNote={(notes) => note(notes, '')}
          onAll={() => note(round.all, say('ageing:round.allDone', { count: round.all.length }))}
        />
      )}
      {!isEmpty && round.places.length === 0 ? <p className="ageing-empty">{say('ageing:round.nothing')}</p> : null}
      {keeping.last === null ? null : (
        <UndoBar undoLabel={say('ageing:undo')} onUndo={() => void keeping.undo()} onGone={keeping.forget} stays>
          {keeping.last.words}
        </UndoBar>
      )}
      <May note="pieceMade">
        <p>
          <Link href="/ageing/new" className={`button ${isEmpty ? 'button-main' : 'button-second'}`}>
            {say('ageing:new.open')}
          </Link>
        </p>
      </May>
      <section aria-labelledby="weeks-title" hidden={isEmpty}>
        <h2 id="weeks-title">{say('ageing:weeks.title')}</h2>
        <div ref={ref} className="weeks-room">
          <Weeks view={weeks} widthPx={widthPx} />
        </div>
      </section>
      {isEmpty ? null : <AwayPart kept={kept} today={today} newStreamId={() => log.newStreamId('day')} onNote={note} />}
      <PlacesPart kept={kept} newStreamId={() => log.newStreamId('place')} onNote={note} />
      {isEmpty ? null : (
        <section className="feed" aria-labelledby="feed-title">
          <h2 id="feed-title">{say('ageing:feed.heading')}</h2>
          <p>{say('ageing:feed.about')}</p>
          <p className="feed-acts">
            <Button
              onClick={
                () =>
                saveText({ text: careFeed({ kept, dayAt: localDayNumber, now, say }), type: 'text/calendar', name: 'ageing.ics' }) // prettier-ignore
              }
            >
              {say('ageing:feed.save')}
            </Button>
          </p>
          <p className="feed-address">
            {say('ageing:feed.subscribe')} <code>{`${location.origin}/api/ageing.ics`}</code>
          </p>
        </section>
      )}
    </div>
  );
}
