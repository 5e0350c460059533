import { useMemo, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { useMay } from '../log/may.tsx';
import { isKept } from '../log/not-kept.ts';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { listText } from '../vat/said.ts';
import { streamOf } from '../vat/batch.ts';
import { classLabels, classNotes, classOf, classProblems, firstClassChoices, firstToGo } from './class-labels.ts';
import { LabelCard } from './label-card.tsx';
import { LabelForm } from './label-form.tsx';
import { firstPile, pileOf, pileProblems } from './label-pile.ts';
import { LabelSheets } from './label-sheets.tsx';
import { labelPages, placesOn } from './label-stock.ts';
import { useFullPages } from './use-full-pages.ts';
import '../print/print.css';
import './labels.css';

/** One sheet with the labels of all pots of a class, each with its own name, lot and weight. */
export function ClassLabelsScreen({ batchId }: { readonly batchId: string }): ReactNode {
  const { say, book } = useReader();
  const { held } = useLog();
  const pots = useMemo(
    () => classOf({ batchId: streamOf(batchId), streams: held.streams, isReady: held.isReady, book }),
    [batchId, held, book],
  );
  if (pots.length > 0) return <OpenClass pots={pots} />;
  if (!held.isReady) return <p>{say('vat:opening')}</p>;
  return (
    <>
      <h1>{say('vat:missing.title')}</h1>
      <p>{say('vat:missing.remedy')}</p>
    </>
  );
}

function OpenClass({ pots }: { readonly pots: ReturnType<typeof classOf> }): ReactNode {
  const { say, write, language } = useReader();
  const { log } = useLog();
  const [choices, setChoices] = useState(() => firstClassChoices(pots));
  const [pile, setPile] = useState(() => firstPile(language));
  const [isNoting, setNoting] = useState(false);
  useFullPages(pile.paper);
  const views = classLabels({ pots, choices, telling: { say, write } });
  const perPage = placesOn(pile).length;
  const counted = { ...pile, count: String(views.length) };
  const problems = { ...classProblems({ pots, choices, say, write }), ...pileProblems({ pile: counted, perPage, say }) }; // prettier-ignore
  const pages = labelPages({ ...pileOf({ pile: counted, perPage }), perPage });
  const may = useMay();
  const notes = classNotes(pots, choices).filter(({ kind, streamId }) => may.note(kind, streamId));
  const names = listText(pots.map(({ record }) => record.name), say('pots:queue.and')); // prettier-ignore
  const blank = pots.filter(({ record }) => record.weighed.length === 0).map(({ record }) => record.name);
  const first = firstToGo(pots);
  const print = async (): Promise<void> => {
    // What went out on labels belongs in each record, once.
    setNoting(true);
    await isKept(log.recordAll(notes));
    setNoting(false);
    window.print();
  };
  return (
    <article className="labels">
      <header className="labels-head no-print">
        <h1>{say('labels:class.title')}</h1>
        <p>{say('labels:class.head', { names })}</p>
      </header>
      <div className="no-print">
        <Notice kind="caution">{say('labels:law')}</Notice>
      </div>
      {blank.length === 0 ? null : (
        <p className="no-print">{say('labels:class.blank', { names: listText(blank, say('pots:queue.and')) })}</p>
      )}
      <div className="labels-body no-print">
        {first === undefined ? null : (
          <LabelForm
            record={first.record}
            plan={first.plan}
            choices={choices}
            pile={pile}
            problems={problems}
            isWeighed
            onChoices={setChoices}
            onPile={setPile}
          />
        )}
        <section className="labels-preview" aria-labelledby="labels-preview">
          <h2 id="labels-preview">{say('labels:class.preview')}</h2>
          {views.map((view, index) => (
            <LabelCard key={`${view.lot} ${index}`} view={view} stock={pile.stock} />
          ))}
          <p>
            {say('labels:sheets', {
              labels: say('labels:count', { count: views.length }),
              sheets: say('labels:pages', { count: pages.length }),
            })}
          </p>
          <p className="labels-small">{say('labels:trueSize')}</p>
        </section>
      </div>
      <div className="labels-acts no-print">
        <Button kind="main" disabled={Object.keys(problems).length > 0 || isNoting} onClick={() => void print()}>
          {say('labels:print')}
        </Button>
        <Link className="record-link" href="/paper">
          {say('record:paper')}
        </Link>
        <p className="labels-small" role="status">
          {say(notes.length === 0 ? 'labels:class.inRecord' : 'labels:class.noted')}
        </p>
      </div>
      <LabelSheets pages={pages} views={views} stock={pile.stock} paper={pile.paper} />
    </article>
  );
}
