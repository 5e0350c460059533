import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { useWipe } from './use-wipe.ts';

/** A screen that wet hands use: while the glass is wiped it hears nothing, and says so over whatever it shows. */
export function WipeGuard({ children }: { readonly children: ReactNode }): ReactNode {
  const { say } = useReader();
  const isWiping = useWipe();
  return (
    <>
      {isWiping ? (
        <p className="vat-wipe" role="alert">
          {say('vat:wipe')}
        </p>
      ) : null}
      <div className="wipe-guarded" inert={isWiping}>
        {children}
      </div>
    </>
  );
}
