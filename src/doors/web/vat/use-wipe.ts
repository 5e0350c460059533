import { useEffect, useState } from 'react';

const WIPE_MS = 5000;
const WATER_TOUCHES = 3;

/** Three touches at once are water, not fingers: input is locked for five seconds so that the glass can be wiped. */
export function useWipe(): boolean {
  const [untilAt, setUntilAt] = useState(0);
  useEffect(() => {
    const touched = (event: TouchEvent): void => {
      if (event.touches.length >= WATER_TOUCHES) setUntilAt(Date.now() + WIPE_MS);
    };
    document.addEventListener('touchstart', touched, { passive: true });
    return () => document.removeEventListener('touchstart', touched);
  }, []);
  useEffect(() => {
    if (untilAt === 0) return;
    const timer = setTimeout(() => setUntilAt(0), Math.max(0, untilAt - Date.now()));
    return () => clearTimeout(timer);
  }, [untilAt]);
  return untilAt !== 0;
}
