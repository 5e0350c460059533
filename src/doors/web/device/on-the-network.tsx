import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useLog } from '../log/log-provider.tsx';
import { useReader } from './reader.tsx';

/** What this device may do on the machine that it came from, where that is changed, and what its address withholds. */
export function OnTheNetwork({ onLeave }: { readonly onLeave: () => void }): ReactNode {
  const { say } = useReader();
  const { access } = useLog().held;
  return (
    <section className="device-network" aria-labelledby="device-network">
      <h3 id="device-network">{say('app:network.title')}</h3>
      <p>
        {say(`app:network.${access}`)}{' '}
        <Link href={access === 'maker' ? '/sharing' : '/pair'} onClick={onLeave}>
          {say(access === 'maker' ? 'app:network.sharing' : 'app:network.pair')}
        </Link>
      </p>
      {globalThis.isSecureContext ? null : <p>{say('app:network.plain')}</p>}
    </section>
  );
}
