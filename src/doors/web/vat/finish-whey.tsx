import type { ReactNode } from 'react';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useReader } from '../device/reader.tsx';
import { WheyPortions } from '../whey/whey-portions.tsx';
import type { WheyView } from '../whey/whey-view.ts';
import type { Entry } from './actions.ts';
import { VatButton } from './vat-button.tsx';

const USES = ['curd', 'brown', 'brine', 'kitchen', 'feed', 'kept', 'away'] as const;

/** What the whey is put to: one tap, kept in the record; nothing is asked twice. */
export function FinishWhey({
  record,
  about,
  views,
  onEntries,
}: {
  readonly record: BatchRecord;
  /** How much there is and how long it keeps, where no whey of its own steps is told. */
  readonly about: string;
  /** Each whey with what it is good for. */
  readonly views: readonly WheyView[];
  readonly onEntries: (entries: readonly Entry[], said: string) => void;
}): ReactNode {
  const { say } = useReader();
  const told = USES.map((use) => say('vat:finish.wheyUsed', { use: say(`vat:finish.wheyUse.${use}`) }));
  const used = record.noted.findLast((note) => told.includes(note.text));
  if (used !== undefined) return <p className="vat-fact">{used.text}</p>;
  return (
    <section className="finish-whey" aria-labelledby="finish-whey">
      <h2 id="finish-whey">{say('vat:finish.wheyTitle')}</h2>
      {views.length === 0 ? <p>{about}</p> : <WheyPortions views={views} />}
      <div className="finish-uses">
        {USES.map((use, index) => (
          <VatButton
            key={use}
            className="vat-small"
            onAct={() => onEntries([{ kind: 'noted', body: { text: told[index] ?? '' } }], told[index] ?? '')}
          >
            {say(`vat:finish.wheyUse.${use}`)}
          </VatButton>
        ))}
      </div>
    </section>
  );
}
