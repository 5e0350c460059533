import { useMemo, type ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { May } from '../log/may.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import { keepDraft, leftDraft } from '../plan/use-draft.ts';
import { makePageView, type MakePageView } from './make-page-view.ts';
import { isBundled } from './make-shelf.ts';
import { useMakes, useWholeMakes } from './use-makes.ts';
import { chosenDraft, keptWish } from './wish.ts';
import './makes.css';
import './make-page.css';

/** What a make is, what milk it wants, how it goes, what it aims at, and where its figures come from. */
export function MakePage({ makeId }: { readonly makeId: string }): ReactNode {
  const { say, write, book } = useReader();
  const now = useNow(60_000);
  const [, go] = useLocation();
  const { own } = useMakes();
  const { makes, failed } = useWholeMakes(useMemo(() => [makeId], [makeId]));
  const [make] = makes;
  const view = useMemo(
    () => (make === undefined ? null : makePageView({ make: book.make(make), say, write })),
    [make, say, write, book],
  );
  if (view === null) {
    const isUnknown = !isBundled(makeId);
    return (
      <div className="make-page">
        <p>
          <Link href="/makes">{say('makes:page.back')}</Link>
        </p>
        {isUnknown ? <p>{say('makes:page.unknown', { id: makeId })}</p> : null}
        {failed === null ? null : <p role="alert">{say('makes:lost', { why: failed })}</p>}
      </div>
    );
  }
  const isOwn = own.makes.some((one) => one.make.id === makeId);
  const plan = (): void => {
    keepDraft(chosenDraft({ draft: leftDraft(write.units), wish: keptWish(now), makeId }));
    go('/plan');
  };
  return (
    <article className="make-page">
      <p>
        <Link href="/makes">{say('makes:page.back')}</Link>
      </p>
      <Card rim className="make-page-head">
        <p className="make-page-family">
          {view.family} · {isOwn ? say('makes:own') : view.status}
        </p>
        <h1>{view.name}</h1>
        <p>{view.about}</p>
        <p className="makes-asks">{view.asks.join(' · ')}</p>
        <div className="make-page-acts">
          <Button kind="main" onClick={plan}>
            {say('makes:plan', { name: view.name })}
          </Button>
          <May note="makeSaved">
            <Link className="make-page-change" href={`/makes/${makeId}/change`}>
              {say(isOwn ? 'makes:page.changeOwn' : 'makes:page.change')}
            </Link>
          </May>
          <Link className="make-page-change" href={`/share/${makeId}`}>
            {say('share:open')}
          </Link>
        </div>
      </Card>
      <MilkCard view={view} />
      <StepsCard view={view} />
      <AimsCard view={view} />
      <SourcesCard view={view} />
    </article>
  );
}

function MilkCard({ view }: { readonly view: MakePageView }): ReactNode {
  const { say } = useReader();
  return (
    <Card aria-labelledby="make-milk">
      <h2 id="make-milk">{say('makes:page.milk')}</h2>
      <div className="make-page-carton">
        <div>
          <h3>{say('plan:shopping.buy')}</h3>
          <ul className="make-page-words">
            {view.carton.buy.map((word) => (
              <li key={word}>{word}</li>
            ))}
          </ul>
        </div>
        <div>
          <h3>{say('plan:shopping.avoid')}</h3>
          <ul className="make-page-words make-page-avoid">
            {view.carton.avoid.map((word) => (
              <li key={word}>{word}</li>
            ))}
          </ul>
        </div>
      </div>
      <ul className="make-page-milk">
        {view.deviations.map(({ text, isRefused, source }) => (
          <li key={text} data-refused={isRefused}>
            {text} <span className="makes-source">{say('plan:source', { source })}</span>
          </li>
        ))}
      </ul>
    </Card>
  );
}

function StepsCard({ view }: { readonly view: MakePageView }): ReactNode {
  const { say } = useReader();
  return (
    <Card aria-labelledby="make-steps">
      <h2 id="make-steps">{say('makes:page.steps', { count: view.steps.length })}</h2>
      <ol className="make-page-steps">
        {view.steps.map((step, index) => (
          <li key={step.id}>
            <span className="make-page-number numerals" aria-hidden="true">
              {index + 1}
            </span>
            <div>
              <h3>{step.name}</h3>
              <p>{step.how}</p>
              {step.until === '' ? null : <p className="make-page-until">{step.until}</p>}
              <p className="makes-asks">{step.why}</p>
              {step.cautions === '' ? null : <p className="make-page-care">{step.cautions}</p>}
            </div>
          </li>
        ))}
      </ol>
    </Card>
  );
}

function AimsCard({ view }: { readonly view: MakePageView }): ReactNode {
  const { say } = useReader();
  return (
    <Card aria-labelledby="make-aims">
      <h2 id="make-aims">{say('makes:page.aims')}</h2>
      <dl className="make-page-aims">
        {view.aims.map((aim) => (
          <div key={aim.id}>
            <dt>{aim.what}</dt>
            <dd>
              <strong className="numerals">{aim.aim}</strong> <span>{aim.span}</span>{' '}
              <span className="makes-source">{say('plan:source', { source: aim.source })}</span>
            </dd>
          </div>
        ))}
      </dl>
      <p className="make-page-keeps">{view.keeps}</p>
    </Card>
  );
}

function SourcesCard({ view }: { readonly view: MakePageView }): ReactNode {
  const { say } = useReader();
  return (
    <Card aria-labelledby="make-sources">
      {view.aliases.length === 0 ? null : (
        <>
          <h2 id="make-names">{say('makes:page.names')}</h2>
          <p>{view.aliases.join(' · ')}</p>
          <p className="makes-asks">{say('makes:page.namesNote')}</p>
        </>
      )}
      <h2 id="make-sources" className="make-page-sources-title">
        {say('makes:page.sources')}
      </h2>
      <ol className="make-page-sources">
        {view.sources.map((source) => (
          <li key={source}>{source}</li>
        ))}
      </ol>
    </Card>
  );
}
