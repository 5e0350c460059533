import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';

/** No pot runs: how to have several. */
export function NoPots({ isReady }: { readonly isReady: boolean }): ReactNode {
  const { say } = useReader();
  if (!isReady) return <p className="vat-message">{say('pots:opening')}</p>;
  return (
    <main className="vat-message">
      <title>{say('pots:titled')}</title>
      <h1>{say('pots:none.title')}</h1>
      <p>{say('pots:none.remedy')}</p>
      <Link href="/plan">{say('pots:none.plan')}</Link>
      <Link href="/">{say('pots:leave')}</Link>
    </main>
  );
}
