import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import type { WakeLock } from '../vat/use-wake-lock.ts';
import { VatButton } from '../vat/vat-button.tsx';
import type { Bell } from './use-bell.ts';
import './bell.css';

/** What the bell cannot do here, said plainly under the strip, and what the device's clock did; nothing while all is well. */
export function BellStrip({
  bell,
  wakeLock,
  isRunning,
  step,
}: {
  readonly bell: Bell;
  readonly wakeLock: WakeLock;
  readonly isRunning: boolean;
  /** The step that runs, told to those who listen when it changes. */
  readonly step: string;
}): ReactNode {
  const { say, write } = useReader();
  const { armed, jumpedMs } = bell;
  return (
    <div className="bell-strip">
      <p className="out-of-sight" aria-live="polite">
        {isRunning ? say('bell:step', { step }) : ''}
      </p>
      {!isRunning || armed === 'armed' || armed === 'asking' ? null : armed === 'none' ? (
        <p className="bell-plain">{say('bell:strip.noSound')}</p>
      ) : (
        <VatButton className="bell-arm" onAct={bell.arm}>
          {say('bell:strip.arm')}
        </VatButton>
      )}
      {wakeLock === 'refused' ? <p className="bell-plain">{say('bell:strip.screen')}</p> : null}
      {jumpedMs === null ? null : (
        <section className="bell-clock" role="status">
          <p>
            {say(jumpedMs > 0 ? 'bell:clock.forward' : 'bell:clock.back', {
              by: write.duration(Math.abs(jumpedMs) / 60_000),
            })}
          </p>
          <div className="bell-answers">
            <VatButton className="bell-answer" onAct={() => bell.clockWasSet(false)}>
              {say(jumpedMs > 0 ? 'bell:clock.slept' : 'bell:clock.wrong')}
            </VatButton>
            <VatButton className="bell-answer" onAct={() => bell.clockWasSet(true)}>
              {say('bell:clock.set')}
            </VatButton>
          </div>
        </section>
      )}
    </div>
  );
}
