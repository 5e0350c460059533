import { memo, type ReactNode } from 'react';
import type { InvitationView } from './invitation-view.ts';
import type { Page } from './vat-pages.tsx';
import { VatButton } from './vat-button.tsx';

/** One quiet line under the card: a reading that would pay, and the tap that takes it. */
export const InvitationLine = memo(function InvitationLine({
  invitation,
  onPage,
}: {
  readonly invitation: InvitationView;
  readonly onPage: (page: Page) => void;
}): ReactNode {
  return (
    <div className="vat-prepare">
      <p>{invitation.text}</p>
      {invitation.label === null ? null : (
        <VatButton className="vat-small" onAct={() => onPage(invitation.page)}>
          {invitation.label}
        </VatButton>
      )}
    </div>
  );
});
