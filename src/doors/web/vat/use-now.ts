import { useEffect, useState } from 'react';
import { wallClock } from '../device/use-now.ts';
import { onTick } from '../bell/tick.ts';

/**
 * The wall clock, once a second; times stored are instants, so a page that slept simply catches up. A worker keeps it
 * going while the page is hidden.
 */
export function useNow(): number {
  const [nowAt, setNowAt] = useState(wallClock);
  useEffect(() => {
    const tick = (): void => setNowAt(wallClock());
    const timer = setInterval(tick, 1000);
    const beside = (): void => {
      if (document.visibilityState === 'hidden') tick();
    };
    const stop = onTick(beside);
    document.addEventListener('visibilitychange', tick);
    return () => {
      clearInterval(timer);
      stop();
      document.removeEventListener('visibilitychange', tick);
    };
  }, []);
  return nowAt;
}
