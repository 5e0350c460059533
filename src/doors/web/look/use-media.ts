import { useSyncExternalStore } from 'react';

/** Whether a media query holds now, for the few layouts that style sheets alone cannot decide. */
export function useMedia(query: string): boolean {
  return useSyncExternalStore(
    (onChange) => {
      const media = matchMedia(query);
      media.addEventListener('change', onChange);
      return () => media.removeEventListener('change', onChange);
    },
    () => matchMedia(query).matches,
  );
}
