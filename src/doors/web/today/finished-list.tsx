import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import type { BatchLine } from './today-view.ts';

/** Makes that are over, newest first, each with the way to its record. */
export function FinishedList({ lines }: { readonly lines: readonly BatchLine[] }): ReactNode {
  const { say } = useReader();
  if (lines.length === 0) return null;
  return (
    <section aria-labelledby="finished">
      <h2 id="finished">{say('today:finished.title')}</h2>
      <BatchLines lines={lines} />
    </section>
  );
}

/** Batches in a list, each with the way to its record. */
export function BatchLines({ lines }: { readonly lines: readonly BatchLine[] }): ReactNode {
  const { say } = useReader();
  return (
    <ul className="today-lines">
      {lines.map((line) => (
        <li key={line.batchId}>
          <span>
            <strong>{line.name}</strong> {line.day} <span className="pot-lot">{line.lotCode}</span>
            {line.isDemo ? <span className="pot-demo">{say('today:running.demo')}</span> : null}
            {line.came === null ? null : <span className="today-came">{line.came}</span>}
          </span>
          <span className="today-acts">
            <Link href={`/record/${line.batchId}`} className="button">
              {say('today:finished.open')}
            </Link>
            <Link href={`/record/${line.batchId}/compare`} className="button">
              {say('compare:openShort')}
            </Link>
          </span>
        </li>
      ))}
    </ul>
  );
}
