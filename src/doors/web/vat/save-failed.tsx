import type { ReactNode } from 'react';
import { told } from '../../../exchange/words.ts';
import { useReader } from '../device/reader.tsx';
import { useLog } from '../log/log-provider.tsx';
import type { Noter } from './use-noting.ts';
import { VatButton } from './vat-button.tsx';

/**
 * The one Act that the tool itself causes: the device keeps nothing more. It says so and why, names what is not kept, and offers to
 * keep it again. Below it, quietly, what else is wrong with keeping: no room on the server, a stream that cannot be read.
 */
export function SaveFailed({ failed }: Pick<Noter, 'failed'>): ReactNode {
  const { say } = useReader();
  const { log, held } = useLog();
  const { problems, isServerFull, waiting } = held;
  return (
    <>
      {failed === null ? null : (
        <div className="vat-act" role="alert">
          <strong>{say('app:notKept.title')}</strong>
          {failed.said.map((said, index) => (
            // Two may be said alike.
            <p key={`${index} ${said}`}>{said}</p>
          ))}
          <p>{failed.isFull ? say('app:notKept.full') : say('app:notKept.do', { because: failed.because })}</p>
          <div className="vat-act-ways">
            <VatButton className="vat-small" onAct={failed.again}>
              {say('app:notKept.again')}
            </VatButton>
            <VatButton className="vat-small" onAct={() => saveFile(log.fileText())}>
              {say('app:notKept.file')}
            </VatButton>
          </div>
        </div>
      )}
      {isServerFull ? <p className="vat-note">{say('app:serverFull', { count: waiting })}</p> : null}
      {failed !== null || problems.length === 0 ? null : (
        <p className="vat-note">{problems.map((problem) => told(say, problem)).join(' ')}</p>
      )}
    </>
  );
}

function saveFile(text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/x-ndjson' }));
  link.download = 'vatside-record.ndjson';
  link.click();
  URL.revokeObjectURL(link.href);
}
