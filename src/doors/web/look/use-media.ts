import { useSyncExternalStore } from 'react';

/** One watched query for the whole page: asking again and again costs a card that is drawn every second. */
interface Watched {
  readonly subscribe: (onChange: () => void) => () => void;
  readonly matches: () => boolean;
}

const watched = new Map<string, Watched>();

function watch(query: string): Watched {
  const media = matchMedia(query);
  const one: Watched = {
    subscribe: (onChange) => {
      media.addEventListener('change', onChange);
      return () => media.removeEventListener('change', onChange);
    },
    matches: () => media.matches,
  };
  watched.set(query, one);
  return one;
}

/** Whether a media query holds now, for the few layouts that style sheets alone cannot decide. */
export function useMedia(query: string): boolean {
  const { subscribe, matches } = watched.get(query) ?? watch(query);
  return useSyncExternalStore(subscribe, matches);
}
