import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import './was.css';

/** What a figure was before a change, beside what it is now; nothing where both read alike. */
export function Was({ now, before }: { readonly now: string; readonly before: string | null }): ReactNode {
  const { say } = useReader();
  return before === null || before === now ? null : <span className="was">{say('app:was', { before })}</span>;
}
