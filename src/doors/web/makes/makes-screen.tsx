import { useDeferredValue, useId, useMemo, useState, type ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { May } from '../log/may.tsx';
import { useLots } from '../lots/use-lots.ts';
import { Card } from '../look/card.tsx';
import { Notice } from '../look/notice.tsx';
import { answersOf, type Draft } from '../plan/draft.ts';
import { keepDraft, leftDraft } from '../plan/use-draft.ts';
import { HaveSentence } from './have-sentence.tsx';
import { MakeRows } from './make-rows.tsx';
import { makesView } from './makes-view.ts';
import { useMakes } from './use-makes.ts';
import { useOwnDays } from './use-own-days.ts';
import { chosenDraft, haveOf, keepWish, keptWish, type Wish } from './wish.ts';
import './makes.css';

/** What can I make with this milk, in these hours, on this stove; and what stops the rest? */
export function MakesScreen(): ReactNode {
  const { say, write } = useReader();
  const now = useNow(60_000);
  const [, go] = useLocation();
  const lots = useLots();
  const { listed, own } = useMakes();
  const [draft, setDraft] = useState(() => leftDraft(write.units));
  const [wish, setWish] = useState(() => keptWish(now));
  const [typed, setTyped] = useState('');
  const changeDraft = (next: Draft): void => {
    setDraft(next);
    keepDraft(next);
  };
  const changeWish = (next: Wish): void => {
    setWish(next);
    keepWish(next);
  };
  const have = useMemo(() => haveOf({ draft, wish, lots, units: write.units }), [draft, wish, lots, write.units]);
  const days = useOwnDays({ own: own.makes, draft, units: write.units });
  const dated = useMemo(
    () => listed.map((one) => ({ ...one, days: days.get(one.facts.id) ?? one.days })),
    [listed, days],
  );
  const asked = useDeferredValue(useMemo(() => ({ have, typed }), [have, typed]));
  const ownIds = useMemo(() => new Set(own.makes.map(({ make }) => make.id)), [own]);
  const view = useMemo(
    () =>
      asked.have === null
        ? null
        : makesView({ makes: dated, ownIds, have: asked.have, typed: asked.typed, say, write }),
    [asked, dated, ownIds, say, write],
  );
  const choose = (makeId: string): void => {
    keepDraft(chosenDraft({ draft, wish, makeId }));
    go('/plan');
  };
  return (
    <div className="makes">
      <h1>{say('makes:title')}</h1>
      <Card rim className="makes-ask">
        <HaveSentence
          draft={draft}
          wish={wish}
          problems={answersOf({ draft, units: write.units }).problems}
          now={now}
          onDraft={changeDraft}
          onWish={changeWish}
        />
      </Card>
      <Search typed={typed} onType={setTyped} />
      {own.unread.map(({ streamId, problems }) => (
        <Notice key={streamId} kind="caution">
          {say('makes:unread', { id: streamId.replace(/^make:/, ''), why: problems[0]?.field ?? '' })}
        </Notice>
      ))}
      {view === null ? <p role="status">{say('makes:unanswered')}</p> : null}
      {view?.isNothingFound === true ? (
        <p role="status">{say('makes:nothingFound', { typed: asked.typed.trim() })}</p>
      ) : null}
      {view === null || view.isNothingFound ? null : (
        <>
          <section aria-labelledby="makes-fit">
            <h2 id="makes-fit">{say('makes:fit', { count: view.fitting.length })}</h2>
            {view.fitting.length === 0 ? (
              <p className="makes-none">{say('makes:noneFit')}</p>
            ) : (
              <MakeRows rows={view.fitting} scaleH={view.scaleH} onChoose={choose} />
            )}
          </section>
          {view.others.length === 0 ? null : (
            <section aria-labelledby="makes-others">
              <h2 id="makes-others">{say('makes:others', { count: view.others.length })}</h2>
              <MakeRows rows={view.others} scaleH={view.scaleH} onChoose={choose} />
            </section>
          )}
        </>
      )}
      <May note="makeSaved">
        <p className="makes-write">
          <Link href="/makes/new/change">{say('makes:writeOwn')}</Link>
        </p>
      </May>
    </div>
  );
}

function Search({ typed, onType }: { readonly typed: string; readonly onType: (typed: string) => void }): ReactNode {
  const { say } = useReader();
  const id = useId();
  return (
    <div className="makes-search" role="search">
      <label htmlFor={id}>{say('makes:search')}</label>
      <span className="field-box">
        <input
          id={id}
          className="field-input"
          type="search"
          autoComplete="off"
          value={typed}
          onChange={(event) => onType(event.target.value)}
        />
      </span>
    </div>
  );
}
