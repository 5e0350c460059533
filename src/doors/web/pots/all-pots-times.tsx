import { useState, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import type { PotSeen } from './pot-seen.ts';
import { gapBetween, MOST_GAP_MIN, timesOf, type Together } from './together-entries.ts';
import { useNotedAll, type NotedAll } from './use-noted-all.ts';

const MINUTE_MS = 60_000;
const STEPS_MIN = [-5, -1, 1, 5] as const;
/** Where nothing tells how far apart the pots are. Our own choice. */
const FIRST_GAP_MIN = 4;

/** When it happened: in the first pot, and how far apart; and which of the pots it did not happen in. */
export function AllPotsTimes({
  what,
  label,
  pots,
  nowAt,
  onNoted,
  onBack,
}: {
  readonly what: Together;
  readonly label: string;
  readonly pots: readonly PotSeen[];
  readonly nowAt: number;
  readonly onNoted: (noted: NotedAll) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const [leftOut, setLeftOut] = useState<ReadonlySet<string>>(new Set());
  const taken = pots.filter(({ potId }) => !leftOut.has(potId));
  const gapOf = (some: readonly PotSeen[]): number => gapBetween(some) ?? FIRST_GAP_MIN;
  // The last pot now, the first so much earlier: it is told once all is done.
  const firstOf = (some: readonly PotSeen[]): number =>
    Math.floor(nowAt / MINUTE_MS) * MINUTE_MS - (some.length - 1) * gapOf(some) * MINUTE_MS;
  const [gapMin, setGap] = useState(() => gapOf(pots));
  const [firstAt, setFirst] = useState(() => firstOf(pots));
  const [isBusy, setBusy] = useState(false);
  const { noteAll, failed } = useNotedAll();
  const times = timesOf({ count: taken.length, firstAt, gapMin });
  const [first] = taken;
  const turn = (potId: string): void => {
    const out = new Set(leftOut.has(potId) ? [...leftOut].filter((one) => one !== potId) : [...leftOut, potId]);
    const some = pots.filter((pot) => !out.has(pot.potId));
    setLeftOut(out);
    setGap(gapOf(some));
    setFirst(firstOf(some));
  };
  const lastAt = times.at(-1) ?? firstAt;
  const isAhead = lastAt > nowAt;
  const changeGap = (by: number): void => setGap(Math.min(MOST_GAP_MIN, Math.max(0, gapMin + by)));
  return (
    <main className="vat vat-page pots-page">
      <h1>{label}</h1>
      <h2>{say('pots:all.when', { pot: first?.record.name ?? '' })}</h2>
      <div className="pots-stepper" role="group" aria-label={say('pots:all.first')}>
        <strong className="numerals">{write.clock(firstAt)}</strong>
        {STEPS_MIN.map((minutes) => (
          <VatButton key={minutes} className="vat-small" onAct={() => setFirst(firstAt + minutes * MINUTE_MS)}>
            {say(minutes < 0 ? 'pots:all.earlier' : 'pots:all.later', { minutes: Math.abs(minutes) })}
          </VatButton>
        ))}
      </div>
      <h2>{say('pots:all.gap')}</h2>
      <div className="pots-stepper" role="group" aria-label={say('pots:all.gap')}>
        <strong>{write.duration(gapMin)}</strong>
        <VatButton className="vat-small" onAct={() => changeGap(-1)}>
          {say('pots:all.less')}
        </VatButton>
        <VatButton className="vat-small" onAct={() => changeGap(1)}>
          {say('pots:all.more')}
        </VatButton>
      </div>
      <ul className="noted-list">
        {pots.map((pot) => {
          const { potId, record } = pot;
          const at = times[taken.indexOf(pot)];
          const isOut = at === undefined;
          return (
            <li key={potId}>
              <strong>{record.name}</strong>
              <span className="numerals">{isOut ? say('pots:all.out') : write.clock(at)}</span>
              <VatButton className="vat-small" disabled={!isOut && taken.length === 1} onAct={() => turn(potId)}>
                {say(isOut ? 'pots:all.takeIn' : 'pots:all.leaveOut', { pot: record.name })}
              </VatButton>
            </li>
          );
        })}
      </ul>
      {isAhead ? <p role="alert">{say('pots:all.notYet', { at: write.clock(lastAt) })}</p> : null}
      {failed === null ? null : (
        <p role="alert">
          {say('vat:strip.notSaved')}: {failed}
        </p>
      )}
      <VatButton
        className="vat-main"
        keyHint="Enter"
        disabled={isAhead || isBusy}
        onAct={() => {
          setBusy(true);
          void noteAll({ what, pots: taken, times, say, write }).then((noted) => {
            setBusy(false);
            if (noted !== null) onNoted(noted);
          });
        }}
      >
        {say('pots:all.note', { count: taken.length })}
      </VatButton>
      <VatButton className="vat-back" keyHint="Escape" onAct={onBack}>
        {say('vat:action.back')}
      </VatButton>
    </main>
  );
}
