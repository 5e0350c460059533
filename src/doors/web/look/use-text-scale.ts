import { useSyncExternalStore } from 'react';

/** Text as most people have it, in px; a reader who wants it larger tells the browser. */
const USUAL_PX = 16;

const rootPx = (): number => parseFloat(getComputedStyle(document.documentElement).fontSize) || USUAL_PX;

function onResize(changed: () => void): () => void {
  addEventListener('resize', changed);
  return () => removeEventListener('resize', changed);
}

/** How much larger than usual the reader's text is: 1 as most have it, 2 at 200 %. For drawings, whose places are in px. */
export const useTextScale = (): number => useSyncExternalStore(onResize, () => rootPx() / USUAL_PX);

/** Width of the window in the reader's own type, in rem. */
export const useWidthRem = (): number => useSyncExternalStore(onResize, () => innerWidth / rootPx());
