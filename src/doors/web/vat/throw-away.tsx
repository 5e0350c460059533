import { useState, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { VatButton } from './vat-button.tsx';

/** Stopping is a fair answer. Asks a second time, at another place, because it closes the batch; without blame. */
export function ThrowAway({ onThrowAway }: { readonly onThrowAway: () => void }): ReactNode {
  const { say } = useReader();
  const [asking, setAsking] = useState(false);
  return (
    <div className="choice wrong-throw">
      <h3>{say('vat:wrong.throw')}</h3>
      <p>{say('vat:wrong.throwWords')}</p>
      {asking ? (
        <div className="wrong-throw-asks">
          <VatButton className="choice-do" onAct={() => setAsking(false)}>
            {say('vat:wrong.throwKeep')}
          </VatButton>
          <VatButton className="choice-do" onAct={onThrowAway}>
            {say('vat:wrong.throwSure')}
          </VatButton>
        </div>
      ) : (
        <VatButton className="choice-do" onAct={() => setAsking(true)}>
          {say('vat:wrong.throw')}
        </VatButton>
      )}
    </div>
  );
}
