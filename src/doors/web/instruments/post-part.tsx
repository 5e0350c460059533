import type { ReactNode } from 'react';
import { isDemoStream } from '../../../record/event.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useReader } from '../device/reader.tsx';
import { bandText } from './file-view.ts';

/** How a script or a gateway sends readings: one line to copy, with this batch's own address. */
export function PostPart({ streamId, record }: { readonly streamId: string; readonly record: BatchRecord }): ReactNode {
  const { say, write } = useReader();
  const line = [
    `curl ${location.origin}/api/batches/${streamId.replace('batch:', '')}/readings \\`,
    `  -H 'content-type: application/json' \\`,
    `  -d '{"quantity": "temperatureC", "value": 38.2, "instrumentId": "vat probe"}'`,
  ].join('\n');
  return (
    <section className="instruments-part" aria-labelledby="instruments-post">
      <h2 id="instruments-post">{say('instruments:post.title')}</h2>
      {isDemoStream(streamId) || record.demo ? (
        <p>{say('instruments:post.demo')}</p>
      ) : (
        <>
          <p>{say('instruments:post.how')}</p>
          <pre className="instruments-line" aria-label={say('instruments:post.line')}>
            <code>{line}</code>
          </pre>
          <p>{say('instruments:post.more', { band: bandText(write) })}</p>
        </>
      )}
    </section>
  );
}
