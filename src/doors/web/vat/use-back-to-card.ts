import { useEffect } from 'react';
import { isBegun } from './told-draft.ts';
import type { Page } from './vat-pages.tsx';

const IDLE_MS = 45_000;

/** After 45 s without a touch the card comes back by itself; a half-entered number stays. */
export function useBackToCard(page: Page, setPage: (page: Page) => void): void {
  useEffect(() => {
    if (page.at === 'card' || page.at === 'pad') return;
    // So does something that is being tried.
    if (page.at === 'whatIf' && Object.keys(page.settings).length > 0) return;
    // A mishap half told stays, as a number half entered does.
    if (page.at === 'wrong' && page.draft !== undefined && isBegun(page.draft)) return;
    const back = (): void => setPage({ at: 'card' });
    let timer = setTimeout(back, IDLE_MS);
    const touched = (): void => {
      clearTimeout(timer);
      timer = setTimeout(back, IDLE_MS);
    };
    for (const kind of ['pointerdown', 'keydown', 'wheel'] as const)
      document.addEventListener(kind, touched, { passive: true });
    return () => {
      clearTimeout(timer);
      for (const kind of ['pointerdown', 'keydown', 'wheel'] as const) document.removeEventListener(kind, touched);
    };
  }, [page, setPage]);
}
