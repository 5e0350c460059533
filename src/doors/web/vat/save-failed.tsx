import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import type { EventLog } from '../log/event-log.ts';
import { VatButton } from './vat-button.tsx';

/** The one Act that the tool itself causes: the device keeps nothing more. It says so and why, and offers the file. */
export function SaveFailed({ failed, log }: { readonly failed: string | null; readonly log: EventLog }): ReactNode {
  const { say } = useReader();
  const { problems } = log.snapshot();
  if (failed === null) return <p className="vat-note">{problems.join(' ')}</p>;
  return (
    <div className="vat-act" role="alert">
      <strong>{say('vat:saveFailed.title')}</strong>
      <p>{say('vat:saveFailed.do')}</p>
      <p className="vat-note">{say('vat:saveFailed.because', { because: failed })}</p>
      <VatButton className="vat-small" onAct={() => saveFile(log.fileText())}>
        {say('vat:saveFailed.file')}
      </VatButton>
    </div>
  );
}

function saveFile(text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/x-ndjson' }));
  link.download = 'vatside-record.ndjson';
  link.click();
  URL.revokeObjectURL(link.href);
}
