import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { useLog } from '../log/log-provider.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import { whichPots } from './which-pots.ts';

/** Among what can be done when something is wrong, where another pot runs: join this curd to it. */
export function JoinOffer({ batchId, onJoin }: { readonly batchId: string; readonly onJoin: () => void }): ReactNode {
  const { say } = useReader();
  const { held } = useLog();
  const { running } = whichPots(held.streams);
  const here = running.find((one) => one.batchId === batchId);
  if (here === undefined || here.steps.length === 0 || running.length < 2) return null;
  return (
    <VatButton className="wrong-cause wrong-all" keyHint="J" onAct={onJoin}>
      {say('pots:join.open')}
    </VatButton>
  );
}
