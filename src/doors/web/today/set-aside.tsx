import type { ReactNode } from 'react';
import { told } from '../../../exchange/words.ts';
import type { SetAside as Refused } from '../../../store/browser-schema.ts';
import { useReader } from '../device/reader.tsx';
import type { EventLog } from '../log/event-log.ts';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';

/** Entries that the server refused: they are here, with the reason, and can be sent again once this device may. */
export function SetAside({
  log,
  refused,
}: {
  readonly log: EventLog;
  readonly refused: readonly Refused[];
}): ReactNode {
  const { say } = useReader();
  const reasons = [...new Set(refused.map(({ reason }) => reason))];
  return (
    <Notice kind="caution" title={say('today:aside.title', { count: refused.length })}>
      <p>{say('today:aside.kept')}</p>
      <ul>
        {reasons.map((reason) => (
          <li key={reason}>{told(say, reason)}</li>
        ))}
      </ul>
      <Button onClick={() => void log.sendAgain()}>{say('today:aside.again')}</Button>
    </Notice>
  );
}
