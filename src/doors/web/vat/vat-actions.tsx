import { memo, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { VatButton } from './vat-button.tsx';

/** The four actions, always in the same places; the filled one is the step's own end in the words spoken at the vat. */
export const VatActions = memo(function VatActions({
  mainLabel,
  onMain,
  onReading,
  onWrong,
  onWhole,
  readingOn = true,
}: {
  readonly mainLabel: string | null;
  readonly onMain: () => void;
  readonly onReading: () => void;
  readonly onWrong: () => void;
  readonly onWhole: () => void;
  readonly readingOn?: boolean;
}): ReactNode {
  const { say } = useReader();
  return (
    <nav className="vat-actions" aria-label={say('vat:action.label')}>
      <VatButton className="vat-second" keyHint="R" disabled={!readingOn} onAct={onReading}>
        {say('vat:action.reading')}
      </VatButton>
      {mainLabel === null ? null : (
        <VatButton className="vat-main" keyHint="Enter" onAct={onMain}>
          {mainLabel}
        </VatButton>
      )}
      <VatButton className="vat-lesser" keyHint="P" onAct={onWrong}>
        {say('vat:action.wrong')}
      </VatButton>
      <VatButton className="vat-lesser" keyHint="W" onAct={onWhole}>
        {say('vat:action.whole')}
      </VatButton>
    </nav>
  );
});
