import { memo, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import type { Access } from '../log/event-log.ts';
import { MayLine } from './may-line.tsx';
import { VatButton } from './vat-button.tsx';

/** The four actions, or those of them that this device may take, always in the same places; the filled one is the step's own end in the words spoken at the vat. */
export const VatActions = memo(function VatActions({
  mainLabel,
  onMain,
  onReading,
  onWrong,
  onWhole,
  access,
  readingOn = true,
}: {
  readonly mainLabel: string | null;
  readonly onMain: () => void;
  readonly onReading: () => void;
  readonly onWrong: () => void;
  readonly onWhole: () => void;
  readonly access: Access;
  readonly readingOn?: boolean;
}): ReactNode {
  const { say } = useReader();
  const decides = access === 'maker' || access === 'none';
  return (
    <nav className="vat-actions" aria-label={say('vat:action.label')}>
      <MayLine access={access} />
      {access === 'reader' ? null : (
        <VatButton className="vat-second" keyHint="R" disabled={!readingOn} onAct={onReading}>
          {say('vat:action.reading')}
        </VatButton>
      )}
      {mainLabel === null || !decides ? null : (
        <VatButton className="vat-main" keyHint="Enter" onAct={onMain}>
          {mainLabel}
        </VatButton>
      )}
      {decides ? (
        <VatButton className="vat-lesser" keyHint="P" onAct={onWrong}>
          {say('vat:action.wrong')}
        </VatButton>
      ) : null}
      <VatButton className="vat-lesser may-look" keyHint="W" onAct={onWhole}>
        {say('vat:action.whole')}
      </VatButton>
    </nav>
  );
});
