import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { useWakeLock } from '../vat/use-wake-lock.ts';
import { clockText, cupMinutes, expectedMinutes, OVERDUE_TIMES, phaseOf, type CupTest } from './cup-test.ts';

/** The clock of the cup, from the wall time that the rennet went in. */
export function CupRunning({
  cup,
  json,
  now,
  onFlecks,
  onStop,
  onAgain,
}: {
  readonly cup: CupTest;
  readonly json: Readonly<Record<string, unknown>> | null;
  readonly now: number;
  readonly onFlecks: () => void;
  readonly onStop: () => void;
  readonly onAgain: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const isRunning = phaseOf(cup) === 'running';
  useWakeLock(isRunning);
  const minutes = cupMinutes({ cup, now });
  const expected = json === null ? null : expectedMinutes(json);
  const isOverdue = expected !== null && minutes > OVERDUE_TIMES * expected.high;
  if (!isRunning) {
    return (
      <>
        <p className="cup-verdict">{say('bench:cup.noCurd', { time: write.duration(minutes) })}</p>
        <Button kind="main" onClick={onAgain}>
          {say('bench:cup.again')}
        </Button>
      </>
    );
  }
  return (
    <>
      <p>{say('bench:cup.running', { time: write.clock(cup.startedAt ?? now) })}</p>
      <p className="cup-clock" role="timer" aria-label={say('bench:cup.clock')}>
        <span className="numerals">{clockText(minutes)}</span>
      </p>
      <p>{isOverdue ? say('bench:cup.overdue') : say('bench:cup.steps.watch')}</p>
      <div className="cup-actions">
        <Button kind="main" size="vat" onClick={onFlecks}>
          {say('bench:cup.flecks')}
        </Button>
        <Button size="vat" onClick={onStop}>
          {say('bench:cup.none')}
        </Button>
      </div>
    </>
  );
}
