import { createContext, useContext, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { useWas } from './use-was.ts';
import './changed.css';

/** Which question the figures answer, and whether they already do. */
export interface Cause {
  readonly of: unknown;
  readonly settled: boolean;
}
export const CauseContext = createContext<Cause>({ of: null, settled: false });

/** A figure that says for eight seconds what it was before the last change: "was 16:40". */
export function Changed({ text, children }: { readonly text: string; readonly children: ReactNode }): ReactNode {
  const { say } = useReader();
  const cause = useContext(CauseContext);
  const before = useWas(text, cause.of, cause.settled);
  return (
    <span className="changed" data-stale={cause.settled ? undefined : ''}>
      {children}
      {before === null ? null : <span className="changed-was">{say('plan:was', { before })}</span>}
    </span>
  );
}
