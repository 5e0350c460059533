import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { VatRun } from './vat-run.tsx';
import { streamOf } from './batch.ts';
import { useBatch } from './use-batch.ts';
import { useKeptForesight } from './use-kept-foresight.ts';
import './vat.css';

/** Beside the vat: what now, until when, what next, and is it on course. */
export function VatScreen({ batchId }: { readonly batchId: string }): ReactNode {
  const { say } = useReader();
  const batch = useBatch(batchId);
  const kept = useKeptForesight(streamOf(batchId));
  if (batch.state === 'opening' || (batch.state === 'open' && kept === undefined))
    return <p className="vat-message">{say('vat:opening')}</p>;
  if (batch.state === 'open') return <VatRun key={batch.streamId} batch={batch} kept={kept ?? null} />;
  return (
    <main className="vat-message">
      <h1>{say(batch.state === 'missing' ? 'vat:missing.title' : 'vat:unreadable.title')}</h1>
      <p>{say(batch.state === 'missing' ? 'vat:missing.remedy' : 'vat:unreadable.remedy')}</p>
      {batch.state === 'unreadable' ? (
        <ul>
          {batch.because.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
      ) : null}
      <Link href="/">{say('vat:strip.leave')}</Link>
    </main>
  );
}
