import { worded } from '../device/catalogues.ts';
import { later } from '../later/later.ts';

/** What the vat does not need for its first answer: the pages over the card, and the cards before and after the make. */
export const VatPages = later(async () => (await worded(() => import('./vat-pages.tsx'))).VatPages);
export const PauseCard = later(async () => (await worded(() => import('./pause-card.tsx'))).PauseCard);
export const FinishCard = later(async () => (await worded(() => import('./finish-card.tsx'))).FinishCard);
/** Trying the bell and writing its calendar: wanted once, before the make. */
export const BellTry = later(async () => (await worded(() => import('../bell/bell-try.tsx'))).BellTry);
/** Asked where two devices noted the same step. */
export const TwiceQuestion = later(async () => (await import('./twice-question.tsx')).TwiceQuestion);
/** Moving a reading to another pot. */
export const OtherPot = later(async () => (await worded(() => import('../pots/other-pot.tsx'))).OtherPot);

/** Fetches the pages and cards, so that they are there before a tap asks for them. */
export function loadLater(): void {
  for (const part of [VatPages, PauseCard, FinishCard]) part.ahead();
}
