import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import type { Access } from '../log/event-log.ts';
import './may.css';

/** Who may note here, where that is not this device, or not all of it; nothing for a maker. */
export function MayLine({ access }: { readonly access: Access }): ReactNode {
  const { say } = useReader();
  if (access === 'maker') return null;
  return (
    <p className="vat-may">
      {say(`vat:may.${access}`)} {access === 'none' ? <Link href="/pair">{say('vat:may.pair')}</Link> : null}
    </p>
  );
}
