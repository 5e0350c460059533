import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import type { Batch } from '../vat/batch.ts';
import { silenceView } from '../vat/silence-view.ts';
import { useBatch, useForesight, useSilence } from '../vat/use-batch.ts';
import { vatView } from '../vat/vat-view.ts';
import type { BatchLine } from './today-view.ts';
import { potNext } from './pot-next.ts';

/** One running pot: the verb now, how long until the next thing, one sentence of course, and the way to its vat. */
export function RunningPot({ line, isFirst }: { readonly line: BatchLine; readonly isFirst: boolean }): ReactNode {
  const batch = useBatch(line.batchId);
  const { say } = useReader();
  return (
    <li>
      <Card rim={isFirst} className="pot">
        <h3>
          {line.name} <span className="pot-lot">{line.lotCode}</span>
          {line.isDemo ? <span className="pot-demo">{say('today:running.demo')}</span> : null}
        </h3>
        {batch.state === 'open' ? <PotNow batch={batch} /> : null}
        {batch.state === 'unreadable' ? <p>{say('today:unreadable')}</p> : null}
        <Link
          href={`/vat/${line.batchId}`}
          className={`button button-desk ${isFirst ? 'button-main' : 'button-second'}`}
        >
          {say('today:running.open')}
        </Link>
      </Card>
    </li>
  );
}

function PotNow({ batch }: { readonly batch: Extract<Batch, { state: 'open' }> }): ReactNode {
  const { say, write } = useReader();
  const nowAt = useNow();
  const { record, plan, seed } = batch;
  const silence = useSilence(batch, nowAt);
  const { forecast, planned, before } = useForesight({ plan, record, seed, nowAt, silence });
  const telling = { say, write, zeroAt: record.zeroAt };
  const asked = silenceView({ silence, record, plan, forecast, telling });
  const view = vatView({ record: asked?.record ?? record, plan, forecast, planned, before, nowAt, telling });
  return (
    <>
      <p className="pot-verb">{view.verb}</p>
      <p>{potNext({ view, forecast, nowAt, telling })}</p>
      {asked !== null ? (
        <p className="pot-course">{asked.text}</p>
      ) : view.standing.stage === 'running' ? (
        <p className="pot-course">{view.course.text}</p>
      ) : null}
    </>
  );
}
