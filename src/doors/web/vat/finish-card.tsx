import { useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import { Quantity } from '../look/quantity.tsx';
import { gaugeHref } from '../print/gauge-view.ts';
import type { Entry } from './actions.ts';
import { leftToDo } from './finish-left.ts';
import { finishView } from './finish-view.ts';
import { FinishWeigh } from './finish-weigh.tsx';
import { FinishWhey } from './finish-whey.tsx';
import { wheyViews } from '../whey/whey-view.ts';
import type { Telling } from './said.ts';
import { VatButton } from './vat-button.tsx';
import './vat-card.css';
import './finish.css';

/** The end of a make: weigh, label with lot and date, what to do with the whey, close. */
export function FinishCard({
  record,
  plan,
  forecast,
  telling,
  streamId,
  onWeigh,
  onEntries,
}: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly telling: Telling;
  readonly streamId: string;
  readonly onWeigh: (what: 'cheese' | 'piece') => void;
  readonly onEntries: (entries: readonly Entry[], said: string) => void;
}): ReactNode {
  const { say, write } = useReader();
  const now = useNow(60_000);
  const view = finishView({ record, plan, forecast, telling });
  return (
    <Card rim className="vat-card finish" aria-labelledby="finish-verb">
      <h1 id="finish-verb" className="vat-verb">
        {say('vat:finish.verb')}
      </h1>
      <div className="finish-row">
        <div>
          {view.weight === null ? null : <Quantity written={view.weight} size="key" />}
          {view.expected === null ? null : <p>{view.expected}</p>}
        </div>
      </div>
      {view.isClosed ? null : <FinishWeigh record={record} onWeigh={onWeigh} onEntries={onEntries} />}
      <div className="finish-label">
        <p className="finish-name">{view.name}</p>
        <p>
          {say('vat:finish.lot')} <strong className="numerals">{view.lotCode}</strong>
        </p>
        <p>{view.made}</p>
        <p>{view.keepAt}</p>
        <p>{view.useBy}</p>
        <p className="vat-small-print">{view.useByHint}</p>
        {view.isLabelled || view.isClosed ? null : (
          <VatButton
            className="vat-lesser may-decide"
            keyHint="L"
            onAct={() => onEntries(view.labelEntries, say('vat:finish.labelDone', { lot: view.lotCode }))}
          >
            {say('vat:finish.saveLabel')}
          </VatButton>
        )}
        <Link className="finish-more" href={`/record/${streamId}/labels`}>
          {say('vat:finish.printLabels')}
        </Link>
        <Link className="finish-more may-decide" href={`/ageing/new?batch=${streamId}`}>
          {say('ageing:finish')}
        </Link>
        <Link className="finish-more" href={gaugeHref(plan)}>
          {say('labels:gauge.open')}
        </Link>
      </div>
      {view.whey === null || view.isClosed ? null : (
        <FinishWhey
          record={record}
          about={view.whey}
          views={
            forecast === null ? [] : wheyViews({ plan, forecast, record, now, zeroAt: telling.zeroAt, say, write })
          }
          onEntries={onEntries}
        />
      )}
      <section className="finish-left" aria-labelledby="finish-left">
        <h2 id="finish-left">{say('vat:finish.leftTitle')}</h2>
        <ul>
          {leftToDo({ record, plan, forecast, telling }).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </section>
      {view.isClosed ? (
        <>
          <p>{view.closed}</p>
          <Link className="vat-button vat-main finish-link" href={`/record/${streamId}`}>
            {say('vat:finish.openRecord')}
          </Link>
        </>
      ) : (
        <Close onClose={() => onEntries([{ kind: 'batchFinished', body: {} }], say('vat:finish.close'))} />
      )}
    </Card>
  );
}

/** Closing asks twice, the second answer at another place: it is one of the four acts that cannot be undone by a tap. */
function Close({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { say } = useReader();
  const [asking, setAsking] = useState(false);
  if (!asking) {
    return (
      <VatButton className="vat-main" keyHint="Enter" onAct={() => setAsking(true)}>
        {say('vat:finish.close')}
      </VatButton>
    );
  }
  return (
    <div className="finish-asks">
      <VatButton className="vat-lesser" onAct={() => setAsking(false)}>
        {say('vat:finish.closeKeep')}
      </VatButton>
      <VatButton className="vat-main" keyHint="Y" onAct={onClose}>
        {say('vat:finish.closeSure')}
      </VatButton>
    </div>
  );
}
