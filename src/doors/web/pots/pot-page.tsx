import { useState, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import type { PadQuantity } from '../pad/pad-model.ts';
import { VatPages, type Page } from '../vat/vat-pages.tsx';
import type { Noter } from '../vat/use-noting.ts';
import { vatView } from '../vat/vat-view.ts';
import { tellingOf } from './pot-seen.ts';
import type { Pot } from './use-pots.ts';

/** The vat's own pad and judgements for one pot, without leaving the others: what is noted goes into its stream. */
export function PotPage({
  pot,
  only,
  replaces,
  nowAt,
  noter,
  onBack,
}: {
  readonly pot: Pot;
  /** One quantity alone, read again. */
  readonly only?: PadQuantity | undefined;
  readonly replaces?: string | undefined;
  readonly nowAt: number;
  readonly noter: Noter;
  readonly onBack: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const [page, setPage] = useState<Page>({ at: 'pad', only, replaces });
  const { batch, forecast, planned, history, beliefs, isCurrent, failed } = pot;
  const { record, plan, streamId } = batch;
  const telling = tellingOf({ nowAt, say, write }, { record });
  const view = vatView({ record, plan, forecast, planned, before: null, nowAt, telling });
  const own: Noter = {
    ...noter,
    note: (entries, told, happenedAt) => {
      const when = happenedAt === undefined ? {} : { happenedAt };
      return noter.noteAll(entries.map((entry) => ({ streamId, ...when, ...entry })), { ...told, said: `${record.name}: ${told.said}` }); // prettier-ignore
    },
  };
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
