import { useState, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import { NotedList } from './noted-list.tsx';
import type { Together } from './together-entries.ts';
import { useNotedAll, type NotedAll } from './use-noted-all.ts';

/** What was noted for all pots: a time set right by a tap, all of it taken back by another. */
export function AllPotsNoted({
  what,
  label,
  noted: first,
  nowAt,
  onDone,
}: {
  readonly what: Together;
  readonly label: string;
  readonly noted: NotedAll;
  readonly nowAt: number;
  readonly onDone: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const [noted, setNoted] = useState(first);
  const [isUndone, setUndone] = useState(false);
  const { setRight, takeBack, failed } = useNotedAll();
  const rows = noted.map(({ pot, at }) => ({ potId: pot.potId, name: pot.record.name, at }));
  const onTime = (potId: string, at: number): void => {
    if (at > nowAt) return;
    void setRight({ what, noted, potId, at, say, write }).then((now) => now !== null && setNoted(now));
  };
  return (
    <main className="vat vat-page pots-page">
      <h1>{isUndone ? say('pots:all.undone') : say('pots:all.notedTitle', { what: label })}</h1>
      {isUndone ? null : (
        <>
          <p>{say('pots:all.correct')}</p>
          <NotedList rows={rows} onTime={onTime} />
        </>
      )}
      {failed === null ? null : (
        <p role="alert">
          {say('vat:strip.notSaved')}: {failed}
        </p>
      )}
      <div className="pots-ends">
        {isUndone ? null : (
          <VatButton
            className="vat-second"
            keyHint="U"
            onAct={() => void takeBack(noted).then((isKept) => isKept && setUndone(true))}
          >
            {say('pots:all.undo')}
          </VatButton>
        )}
        <VatButton className="vat-main" keyHint="Enter" onAct={onDone}>
          {say('pots:all.done')}
        </VatButton>
      </div>
    </main>
  );
}
