import { useState, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { useLog } from '../log/log-provider.tsx';
import type { Noter } from '../vat/use-noting.ts';
import { VatButton } from '../vat/vat-button.tsx';
import { movedTo } from './moved.ts';
import { whichPots } from './which-pots.ts';
import './other-pot.css';

/** "Other pot…": what was just noted belongs to a pot beside this one, and goes there with one tap. */
export function OtherPot({ noter }: { readonly noter: Noter }): ReactNode {
  const { say } = useReader();
  const { held } = useLog();
  const [open, setOpen] = useState(false);
  const { last } = noter;
  if (last === null) return null;
  const events = last.eventIds.flatMap((id, index) => {
    const event = held.streams.get(last.streamIds[index] ?? '')?.find((one) => one.id === id);
    return event === undefined ? [] : [event];
  });
  const others = whichPots(held.streams).running.filter(({ batchId }) => !last.streamIds.includes(batchId));
  const [only, another] = others;
  if (only === undefined || movedTo({ events, potId: only.batchId }).length === 0) return null;
  const move = ({ batchId, name }: { readonly batchId: string; readonly name: string }): void => {
    setOpen(false);
    void noter.noteAll(movedTo({ events, potId: batchId }), { said: say('pots:move.said', { what: last.said, pot: name }), expected: null, doubt: null, reads: null }); // prettier-ignore
  };
  if (another === undefined) {
    return (
      <VatButton className="vat-small" onAct={() => move(only)}>
        {say('pots:move.to', { pot: only.name })}
      </VatButton>
    );
  }
  if (!open) {
    return (
      <VatButton className="vat-small" aria-expanded={false} onAct={() => setOpen(true)}>
        {say('pots:move.other')}
      </VatButton>
    );
  }
  return (
    <div className="other-pots" role="group" aria-label={say('pots:move.title')}>
      {others.map((pot) => (
        <VatButton key={pot.batchId} className="vat-small" onAct={() => move(pot)}>
          {pot.name}
        </VatButton>
      ))}
      <VatButton className="vat-small" onAct={() => setOpen(false)}>
        {say('pots:move.keep')}
      </VatButton>
    </div>
  );
}
