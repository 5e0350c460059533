import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { saveCopy } from '../today/save-copy.ts';
import { useLog } from './log-provider.tsx';

/** On every page of the frame: that this device did not keep the last thing, or that the server has no room. Nothing on a good day. */
export function KeepingNews(): ReactNode {
  const { say } = useReader();
  const { log, held } = useLog();
  const { notKept, isServerFull, waiting } = held;
  return (
    <>
      {notKept === null ? null : (
        <div role="alert" className="frame-news no-print">
          <Notice kind="act" title={say('app:notKept.title')}>
            <p>{notKept.isFull ? say('app:notKept.full') : say('app:notKept.do', { because: notKept.because })}</p>
            <Button onClick={() => saveCopy({ text: log.fileText(), now: Date.now() })}>
              {say('app:notKept.file')}
            </Button>
          </Notice>
        </div>
      )}
      {isServerFull ? (
        <div role="status" className="frame-news no-print">
          <Notice kind="caution">{say('app:serverFull', { count: waiting })}</Notice>
        </div>
      ) : null}
    </>
  );
}
