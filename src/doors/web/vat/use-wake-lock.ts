import { useEffect, useState } from 'react';

/** Whether the screen is kept lit: not wanted, held, asked for, or refused by the browser. */
export type WakeLock = 'off' | 'held' | 'asking' | 'refused';

/** Keeps the screen lit while a make runs, where the browser allows it; asked for again whenever the page comes back. */
export function useWakeLock(isWanted: boolean): WakeLock {
  const [answer, setAnswer] = useState<'held' | 'asking' | 'refused'>('asking');
  const isThere = 'wakeLock' in navigator;
  useEffect(() => {
    if (!isWanted || !isThere) return;
    let held: WakeLockSentinel | null = null;
    const ask = async (): Promise<void> => {
      if (document.visibilityState !== 'visible') return;
      try {
        held = await navigator.wakeLock.request('screen');
        setAnswer('held');
      } catch {
        // Battery saving or an insecure address refuses it; the screen then dims as the device likes, and the strip says so.
        held = null;
        setAnswer('refused');
      }
    };
    const again = (): void => void ask();
    void ask();
    document.addEventListener('visibilitychange', again);
    return () => {
      document.removeEventListener('visibilitychange', again);
      void held?.release();
    };
  }, [isWanted, isThere]);
  if (!isWanted) return 'off';
  return isThere ? answer : 'refused';
}
