import { useEffect, useState } from 'react';

/** Whole milliseconds, as the record keeps them; a clock may give parts of one. */
export const wallClock = (): number => Math.floor(Date.now());

/** The wall clock in milliseconds UTC, drawn again every so often and whenever the page comes back into sight. */
export function useNow(everyMs = 15_000): number {
  const [now, setNow] = useState(wallClock);
  useEffect(() => {
    const look = (): void => setNow(wallClock());
    const timer = setInterval(look, everyMs);
    document.addEventListener('visibilitychange', look);
    return () => {
      clearInterval(timer);
      document.removeEventListener('visibilitychange', look);
    };
  }, [everyMs]);
  return now;
}
