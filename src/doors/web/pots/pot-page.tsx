import { useState, type ReactNode } from 'react';
import type { JudgementName } from '../../../make/judgement.ts';
import { useReader } from '../device/reader.tsx';
import type { PadQuantity } from '../pad/pad-model.ts';
import { VatPages, type Page } from '../vat/vat-pages.tsx';
import type { Noter } from '../vat/use-noting.ts';
import { vatView } from '../vat/vat-view.ts';
import { potNoter } from './pot-noter.ts';
import { tellingOf } from './pot-seen.ts';
import type { Pot } from './use-pots.ts';

/** The vat's own pad and judgements for one pot, without leaving the others: what is noted goes into its stream. */
export function PotPage({
  pot,
  only,
  replaces,
  judgement,
  nowAt,
  noter,
  onBack,
}: {
  readonly pot: Pot;
  /** One quantity alone, read again. */
  readonly only?: PadQuantity | undefined;
  readonly replaces?: string | undefined;
  /** Opened at a test instead of the pad. */
  readonly judgement?: JudgementName | undefined;
  readonly nowAt: number;
  readonly noter: Noter;
  readonly onBack: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const [page, setPage] = useState<Page>(
    judgement === undefined ? { at: 'pad', only, replaces } : { at: 'judge', judgement },
  );
  const { batch, forecast, planned, history, beliefs, isCurrent, failed } = pot;
  const { record, plan, streamId } = batch;
  const telling = tellingOf({ nowAt, say, write }, { record });
  const view = vatView({ record, plan, forecast, planned, before: null, nowAt, telling });
  const own = potNoter({ noter, streamId, pot: record.name });
  return (
    <main className="vat vat-page">
      <VatPages
        page={page}
        onPage={(to) => (to.at === 'card' ? onBack() : setPage(to))}
        batch={batch}
        view={view}
        foresight={{ history, beliefs, forecast, isCurrent, isRefining: false, failed, planned, before: null }}
        nowAt={nowAt}
        telling={telling}
        noter={own}
      />
    </main>
  );
}
