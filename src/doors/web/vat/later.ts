import { lazy } from 'react';
import { worded } from '../device/catalogues.ts';

const pages = async () => ({ default: (await worded(() => import('./vat-pages.tsx'))).VatPages });
const pause = async () => ({ default: (await worded(() => import('./pause-card.tsx'))).PauseCard });
const finish = async () => ({ default: (await worded(() => import('./finish-card.tsx'))).FinishCard });

/** What the vat does not need for its first answer: the pages over the card, and the cards before and after the make. */
export const VatPages = lazy(pages);
export const PauseCard = lazy(pause);
export const FinishCard = lazy(finish);
/** Trying the bell and writing its calendar: wanted once, before the make. */
export const BellTry = lazy(async () => ({ default: (await worded(() => import('../bell/bell-try.tsx'))).BellTry }));
/** Asked where two devices noted the same step. */
export const TwiceQuestion = lazy(async () => ({ default: (await import('./twice-question.tsx')).TwiceQuestion }));
/** Moving a reading to another pot. */
export const OtherPot = lazy(async () => ({ default: (await worded(() => import('../pots/other-pot.tsx'))).OtherPot }));

/** Fetches all of it, so that it is there before a tap asks for it; a fetch that fails is tried again by the tap. */
export function loadLater(): void {
  for (const load of [pages, pause, finish]) load().catch(() => undefined);
}
