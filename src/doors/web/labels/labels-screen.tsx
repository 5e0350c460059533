import { useMemo, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { useMay } from '../log/may.tsx';
import { isKept } from '../log/not-kept.ts';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import type { Batch } from '../vat/batch.ts';
import type { Telling } from '../vat/said.ts';
import { useBatch } from '../vat/use-batch.ts';
import { ByHand } from './by-hand.tsx';
import { LabelCard } from './label-card.tsx';
import { LabelForm } from './label-form.tsx';
import { LabelSheets } from './label-sheets.tsx';
import { labelPages, placesOn } from './label-stock.ts';
import { firstChoices, isNoted, labelBody, labelProblems, labelView } from './label-view.ts';
import { firstPile, pileProblems, pileOf } from './label-pile.ts';
import { useFullPages } from './use-full-pages.ts';
import '../print/print.css';
import './labels.css';

/** Labels for one batch: what they say, how many, and the pages for the printer. */
export function LabelsScreen({ batchId }: { readonly batchId: string }): ReactNode {
  const { say } = useReader();
  const batch = useBatch(batchId);
  if (batch.state === 'opening') return <p>{say('vat:opening')}</p>;
  if (batch.state === 'open') return <OpenLabels batch={batch} />;
  return (
    <>
      <h1>{say(batch.state === 'missing' ? 'vat:missing.title' : 'vat:unreadable.title')}</h1>
      <p>{say(batch.state === 'missing' ? 'vat:missing.remedy' : 'vat:unreadable.remedy')}</p>
    </>
  );
}

function OpenLabels({ batch }: { readonly batch: Extract<Batch, { state: 'open' }> }): ReactNode {
  const { say, write, language } = useReader();
  const { log } = useLog();
  const { record, plan, streamId } = batch;
  const mayKeep = useMay().note('labelled', streamId);
  const telling = useMemo<Telling>(() => ({ say, write, zeroAt: record.zeroAt }), [say, write, record.zeroAt]);
  const [choices, setChoices] = useState(() => firstChoices({ record, plan }));
  const [pile, setPile] = useState(() => firstPile(language));
  const [isByHand, setByHand] = useState(false);
  const view = labelView({ record, plan, choices, telling });
  useFullPages(pile.paper);
  const perPage = placesOn(pile).length;
  const problems = { ...labelProblems({ choices, record, say, write }), ...pileProblems({ pile, perPage, say }) };
  const isFit = Object.keys(problems).length === 0;
  const pages = labelPages({ ...pileOf({ pile, perPage }), perPage });
  const labels = pages.flat().filter(({ kind }) => kind === 'label').length;
  const isInRecord = isNoted({ record, plan, choices });
  const print = (): void => {
    // What went out on labels belongs in the record, once.
    if (!isInRecord && mayKeep) void isKept(log.record({ kind: 'labelled', streamId, body: labelBody({ record, plan, choices }) })); // prettier-ignore
    window.print();
  };
  return (
    <article className="labels">
      <header className="labels-head no-print">
        <h1>{say('labels:title')}</h1>
        <p>{say('labels:head', { name: plan.make.name, lot: record.lotCode, day: write.date(record.zeroAt) })}</p>
        {record.demo ? <p className="record-demo">{say('record:demo')}</p> : null}
      </header>
      <div className="no-print">
        <Notice kind="caution">{say('labels:law')}</Notice>
      </div>
      <div className="labels-body no-print">
        <LabelForm
          record={record}
          plan={plan}
          choices={choices}
          pile={pile}
          problems={problems}
          onChoices={setChoices}
          onPile={setPile}
        />
        <section className="labels-preview" aria-labelledby="labels-preview">
          <h2 id="labels-preview">{say(isByHand ? 'labels:byHand.title' : 'labels:preview')}</h2>
          {isByHand ? <ByHand view={view} /> : <LabelCard view={view} stock={pile.stock} />}
          <p>
            {say('labels:sheets', {
              labels: say('labels:count', { count: labels }),
              sheets: say('labels:pages', { count: pages.length }),
            })}
          </p>{' '}
          {/* prettier-ignore */}
          <p className="labels-small">{say('labels:trueSize')}</p>
        </section>
      </div>
      <div className="labels-acts no-print">
        <Button kind="main" disabled={!isFit} onClick={print}>
          {say('labels:print')}
        </Button>
        <Button kind="second" onClick={() => setByHand(!isByHand)}>
          {say(isByHand ? 'labels:byHand.close' : 'labels:byHand.open')}
        </Button>
        {record.together === null ? null : (
          <Link className="record-link" href={`/record/${streamId}/labels/class`}>
            {say('labels:class.open', { number: record.together.of })}
          </Link>
        )}
        <Link className="record-link" href="/gauge">
          {say('labels:gauge.open')}
        </Link>
        <Link className="record-link" href={`/record/${streamId}`}>
          {say('record:back')}
        </Link>
        <p className="labels-small" role="status">
          {isInRecord || mayKeep ? say(isInRecord ? 'labels:inRecord' : 'labels:noted') : null}
        </p>
      </div>
      <LabelSheets pages={pages} views={[view]} stock={pile.stock} paper={pile.paper} />
    </article>
  );
}
