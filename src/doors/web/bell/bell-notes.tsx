import { memo, useState, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import type { WakeLock } from '../vat/use-wake-lock.ts';
import { VatButton } from '../vat/vat-button.tsx';
import type { Bell } from './use-bell.ts';
import './bell.css';

const MINUTES = [2, 5, 10, 15, 20, 30, 45, 60] as const;
const LABELS = ['plain', 'water', 'wash', 'look'] as const;

/** Silent lines beside the card, the kitchen timers that run, and setting one: two taps. */
export const BellNotes = memo(function BellNotes({
  bell,
  wakeLock,
}: {
  readonly bell: Bell;
  readonly wakeLock: WakeLock;
}): ReactNode {
  const { say, write } = useReader();
  const [isOpen, setOpen] = useState(false);
  const [label, setLabel] = useState<(typeof LABELS)[number]>('plain');
  const notes = bell.shown.filter(({ call }) => call.class === 'note' && !call.id.startsWith('prepare.'));
  const set = (minutes: number): void => {
    bell.setTimer(say(`bell:timer.labels.${label}`), minutes);
    setOpen(false);
  };
  return (
    <>
      {wakeLock === 'refused' ? <p className="bell-plain">{say('bell:strip.screen')}</p> : null}
      {notes.map(({ call }) => (
        <p key={call.id}>{call.seen}</p>
      ))}
      {bell.timers.map((timer) => (
        <p key={`${timer.label} ${timer.at}`} className="pair">
          {say('bell:timer.running', { label: timer.label, at: write.clock(timer.at) })}
        </p>
      ))}
      {isOpen ? (
        <section className="bell-timer" aria-label={say('bell:timer.title')}>
          <div className="bell-answers">
            {LABELS.map((one) => (
              <VatButton key={one} className="bell-answer" aria-pressed={one === label} onAct={() => setLabel(one)}>
                {say(`bell:timer.labels.${one}`)}
              </VatButton>
            ))}
          </div>
          <div className="bell-minutes">
            {MINUTES.map((count) => (
              <VatButton key={count} className="bell-answer numerals" onAct={() => set(count)}>
                {say('bell:timer.go', { count })}
              </VatButton>
            ))}
          </div>
          <VatButton className="vat-small" onAct={() => setOpen(false)}>
            {say('bell:timer.close')}
          </VatButton>
        </section>
      ) : (
        <VatButton className="vat-small bell-set" onAct={() => setOpen(true)}>
          {say('bell:timer.set')}
        </VatButton>
      )}
    </>
  );
});
