import { memo, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import type { Bell } from './use-bell.ts';
import './bell.css';

/** Which step runs, for those who listen, and what the device's clock did, to be asked about under the strip. */
export const BellStrip = memo(function BellStrip({
  bell,
  isRunning,
  step,
}: {
  readonly bell: Bell;
  readonly isRunning: boolean;
  /** The step that runs, told to those who listen when it changes. */
  readonly step: string;
}): ReactNode {
  const { say, write } = useReader();
  const { jumpedMs } = bell;
  return (
    <div className="bell-strip">
      <p className="out-of-sight" aria-live="polite">
        {isRunning ? say('bell:step', { step }) : ''}
      </p>
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
});

/** That the bell is silent, above the actions: a tap anywhere arms it, and what is read does not move when the line goes. */
export function BellFoot({
  bell,
  isRunning,
}: {
  readonly bell: Pick<Bell, 'armed' | 'arm'>;
  readonly isRunning: boolean;
}): ReactNode {
  const { say } = useReader();
  if (!isRunning || bell.armed === 'armed' || bell.armed === 'asking') return null;
  return (
    <div className="bell-foot">
      {bell.armed === 'none' ? (
        <p className="bell-plain">{say('bell:strip.noSound')}</p>
      ) : (
        <VatButton className="bell-arm" onAct={bell.arm}>
          {say('bell:strip.arm')}
        </VatButton>
      )}
    </div>
  );
}
