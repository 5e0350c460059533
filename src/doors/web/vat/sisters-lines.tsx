import type { ReactNode } from 'react';
import type { SistersView } from './sisters-view.ts';

/** What the pots beside this one have told, and whether this one stands out. */
export function SistersLines({ sisters }: { readonly sisters: SistersView }): ReactNode {
  return (
    <div className="vat-sisters" role="status">
      {sisters.odd === null ? null : <p className="vat-caution">{sisters.odd}</p>}
      {sisters.learned === null ? null : <p>{sisters.learned}</p>}
    </div>
  );
}
