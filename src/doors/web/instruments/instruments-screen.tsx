import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { May } from '../log/may.tsx';
import { useBatch } from '../vat/use-batch.ts';
import { FilePart } from './file-part.tsx';
import { PostPart } from './post-part.tsx';
import { ProbePart } from './probe-part.tsx';
import './instruments.css';

/** Readings that no hand types: a probe on this device, a logger's file, a script. */
export function InstrumentsScreen({ batchId }: { readonly batchId: string }): ReactNode {
  const { say, write } = useReader();
  const nowAt = useNow();
  const batch = useBatch(batchId);
  if (batch.state === 'opening') return <p>{say('vat:opening')}</p>;
  if (batch.state !== 'open') {
    return (
      <>
        <h1>{say(batch.state === 'missing' ? 'vat:missing.title' : 'vat:unreadable.title')}</h1>
        <p>{say(batch.state === 'missing' ? 'vat:missing.remedy' : 'vat:unreadable.remedy')}</p>
      </>
    );
  }
  const { record, streamId } = batch;
  const isOver = record.finishedAt !== null;
  return (
    <article className="instruments">
      <header>
        <h1>{say('instruments:title')}</h1>
        <p>
          {say('instruments:of', {
            pot: record.name,
            lot: record.lotCode,
            day: write.day(record.zeroAt),
          })}
        </p>{' '}
        {/* prettier-ignore */}
        <p className="instruments-links">
          {isOver ? null : <Link href={`/vat/${streamId}`}>{say('instruments:toVat')}</Link>}
          <Link href={`/record/${streamId}`}>{say('instruments:toRecord')}</Link>
        </p>
      </header>
      <May note="reading" of={streamId} tells>
        {isOver ? null : <ProbePart streamId={streamId} record={record} nowAt={nowAt} />}
        <FilePart batch={batch} nowAt={nowAt} />
      </May>
      <PostPart streamId={streamId} record={record} />
    </article>
  );
}
