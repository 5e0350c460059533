import { useEffect, useState } from 'react';

/** The wall clock, once a second; times stored are instants, so a page that slept simply catches up. */
export function useNow(): number {
  const [nowAt, setNowAt] = useState(() => Date.now());
  useEffect(() => {
    const tick = (): void => setNowAt(Date.now());
    const timer = setInterval(tick, 1000);
    document.addEventListener('visibilitychange', tick);
    return () => {
      clearInterval(timer);
      document.removeEventListener('visibilitychange', tick);
    };
  }, []);
  return nowAt;
}
