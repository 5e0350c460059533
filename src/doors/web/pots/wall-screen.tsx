import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { useNow } from '../vat/use-now.ts';
import { useWakeLock } from '../vat/use-wake-lock.ts';
import { NoPots } from './no-pots.tsx';
import { PotHeads } from './pot-heads.tsx';
import { PotsLanes } from './pots-lanes.tsx';
import { useBurners } from './use-burners.ts';
import { usePots } from './use-pots.ts';
import { usePotsView } from './use-pots-view.ts';
import '../vat/vat.css';
import './pots.css';
import './wall.css';

/** So many more calls are named; the pots themselves show the rest. */
const MOST_ALSO = 2;
const PX_PER_MIN = 1.4;

/** The same for a projector: who is called now, who next, the clock, and the pots side by side; nothing to press. */
export function WallScreen(): ReactNode {
  const { say, write } = useReader();
  const nowAt = useNow();
  const { isReady, pots } = usePots(nowAt);
  const { burners } = useBurners();
  const view = usePotsView({ pots, burners, nowAt });
  useWakeLock(pots.length > 0);
  if (pots.length === 0) return <NoPots isReady={isReady} />;
  const [main, ...also] = view.now;
  const more = also.length - MOST_ALSO;
  return (
    <main className="wall">
      <title>{say('pots:wallTitled')}</title>
      <header className="wall-head">
        <Link href="/pots" className="wall-title">
          {say('pots:title')}
        </Link>
        <strong className="wall-clock numerals">{write.clock(nowAt)}</strong>
      </header>
      <section className="wall-calls" aria-live="polite">
        <h1 className="wall-now">
          {main === undefined ? (
            (view.nobody ?? say('pots:queue.nobody'))
          ) : (
            <>
              <span>{say('pots:wall.now')}</span> {say('pots:wall.call', { pot: main.pot, verb: main.verb })}
            </>
          )}
        </h1>
        {also.slice(0, MOST_ALSO).map((line) => (
          <p key={`${line.call.potId} ${line.call.stepId}`} className="wall-also">
            {say('pots:wall.call', { pot: line.pot, verb: line.verb })}
          </p>
        ))}
        {more > 0 ? <p className="wall-also">{say('pots:wall.more', { count: more })}</p> : null}
        <ol className="wall-next" aria-label={say('pots:wall.next')}>
          {view.next.map((line) => (
            <li key={`${line.call.potId} ${line.call.stepId}`}>
              <strong className="numerals pair">{write.clock(line.call.at)}</strong>{' '}
              {say('pots:wall.call', { pot: line.pot, verb: line.verb })}
            </li>
          ))}
        </ol>
      </section>
      <section className="wall-side">
        <PotHeads lanes={view.lanes} onNote={null} />
        <PotsLanes view={view} nowAt={nowAt} pxPerMin={PX_PER_MIN} />
      </section>
    </main>
  );
}
