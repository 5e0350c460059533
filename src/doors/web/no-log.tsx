import type { ReactNode } from 'react';
import { useReader } from './device/reader.tsx';
import { Notice } from './look/notice.tsx';

/** The device will not keep a record: say so before anything is noted that would be lost. */
export function NoLog({ why }: { readonly why: string }): ReactNode {
  const { say } = useReader();
  return (
    <main className="frame-content">
      <h1>{say('app:name')}</h1>
      <Notice kind="act" title={say('app:noLog.title')}>
        <p>{say('app:noLog.remedy')}</p>
        <p>{why}</p>
      </Notice>
    </main>
  );
}
