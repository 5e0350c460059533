import { useEffect } from 'react';

/** Keeps the screen lit while a make runs, where the browser allows it; asked for again whenever the page comes back. */
export function useWakeLock(isWanted: boolean): void {
  useEffect(() => {
    if (!isWanted || !('wakeLock' in navigator)) return;
    let held: WakeLockSentinel | null = null;
    const ask = async (): Promise<void> => {
      if (document.visibilityState !== 'visible') return;
      try {
        held = await navigator.wakeLock.request('screen');
      } catch {
        // Battery saving or an insecure address refuses it; the screen then dims as the device likes.
        held = null;
      }
    };
    const again = (): void => void ask();
    void ask();
    document.addEventListener('visibilitychange', again);
    return () => {
      document.removeEventListener('visibilitychange', again);
      void held?.release();
    };
  }, [isWanted]);
}
