import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Notice } from '../look/notice.tsx';
import { lacksOf } from './pairing-view.ts';

/** What a page that came over plain HTTP cannot do, said before it is missed; nothing where all of it works. */
export function Lacks({ isBrief = false }: { readonly isBrief?: boolean }): ReactNode {
  const { say } = useReader();
  const lacks = lacksOf(globalThis.isSecureContext);
  if (lacks.length === 0) return null;
  if (isBrief) return <Notice kind="caution">{say('pairing:lacks.brief')}</Notice>;
  return (
    <Notice kind="caution" title={say('pairing:lacks.title')}>
      <ul className="lacks">
        {lacks.map((lack) => (
          <li key={lack}>{say(`pairing:lacks.${lack}`)}</li>
        ))}
      </ul>
      <p>{say('pairing:lacks.safe')}</p>
    </Notice>
  );
}
