import { useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { useLog } from '../log/log-provider.tsx';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { openBatch, type Batch } from '../vat/batch.ts';
import { standingOf } from '../vat/current-step.ts';
import type { Noter } from '../vat/use-noting.ts';
import { VatButton } from '../vat/vat-button.tsx';
import { joinNotes } from './join-notes.ts';
import { inSentence } from './pot-seen.ts';
import { whichPots } from './which-pots.ts';
import './pots-pages.css';

/** The curd of a pot that failed goes into another: which, how much, what it means, and what it must not carry along. */
export function JoinPage({
  batch,
  nowAt,
  noter,
  onWeigh,
  onBack,
}: {
  readonly batch: Extract<Batch, { state: 'open' }>;
  readonly nowAt: number;
  readonly noter: Noter;
  readonly onWeigh: () => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say, write, book } = useReader();
  const { held } = useLog();
  const [done, setDone] = useState<{ readonly to: BatchRecord; readonly at: number } | null>(null);
  const { record, plan } = batch;
  const others = whichPots(held.streams).running.filter(
    ({ batchId, demo }) => batchId !== record.batchId && demo === record.demo,
  );
  const massKg = record.weighed.findLast(({ what }) => what === 'drained-curd')?.massKg ?? null;
  if (done !== null) {
    return (
      <section className="pots-page" aria-live="polite">
        <h1>{say('pots:join.done', { pot: record.name, other: done.to.name, at: write.clock(done.at) })}</h1>
        <div className="pots-ends">
          <VatButton className="vat-second" keyHint="U" onAct={() => void noter.undo().then(() => setDone(null))}>
            {say('pots:join.undo')}
          </VatButton>
          <Link className="vat-button vat-main" href={`/vat/${done.to.batchId.replace(/^batch:/, '')}`}>
            {say('pots:join.go', { pot: done.to.name })}
          </Link>
        </div>
      </section>
    );
  }
  const join = (to: BatchRecord): void => {
    const notes = joinNotes({ from: record, to, massKg });
    const told = { said: say('pots:join.note', { pot: to.name }), expected: null, doubt: null, reads: null };
    void noter.noteAll(notes, told).then(() => setDone({ to, at: nowAt }));
  };
  return (
    <section className="pots-page">
      <h1>{say('pots:join.title', { pot: record.name })}</h1>
      <p className="pots-caution">{say('pots:join.caution')}</p>
      <p>{say('pots:join.means')}</p>
      <div className="pots-weight">
        <p>
          {massKg === null
            ? say('pots:join.noWeight')
            : say('pots:join.weight', { weight: write.kilograms(massKg).text })}
        </p>
        <VatButton className="vat-small" onAct={onWeigh}>
          {say('pots:join.weigh')}
        </VatButton>
      </div>
      <div className="pots-whats">
        {others.map((other) => {
          const opened = openBatch({
            streamId: other.batchId,
            events: held.streams.get(other.batchId),
            isReady: true,
            book,
          });
          if (opened.state !== 'open') return null;
          const { step } = standingOf(opened);
          const isOther = opened.plan.make.id !== plan.make.id;
          return (
            <VatButton key={other.batchId} className="vat-second pots-join-to" onAct={() => join(other)}>
              <span>{say('pots:join.to', { pot: other.name })}</span>
              <span className="pots-small">
                {say('pots:join.at', { verb: inSentence(step?.name ?? say('vat:finish.verb')) })}
                {isOther ? `, ${say('pots:join.otherMake', { make: opened.plan.make.name })}` : ''}
              </span>
            </VatButton>
          );
        })}
      </div>
      <VatButton className="vat-back" keyHint="Escape" onAct={onBack}>
        {say('vat:action.back')}
      </VatButton>
    </section>
  );
}
