import type { BatchRecord } from '../../../record/batch-record.ts';

/** How many help at the pots of one class: told when its day was planned, kept on this device for these pots alone. */

const KEY = 'vatside.hands';
/** One maker walks from pot to pot: two pots at once are one too many. */
export const WALKING_ALONE = 1;

/** Keeps how many pairs of hands there are for the pots that were opened together under this id. */
export const keepHands = (input: { readonly together: string; readonly hands: number }): void =>
  localStorage.setItem(KEY, JSON.stringify(input));

/** Hands for these pots: those of their class where all are of it, else one maker's. */
export function handsFor(records: readonly Pick<BatchRecord, 'together'>[]): number {
  const kept = readKept();
  const isTheirs = kept !== null && records.length > 0 && records.every(({ together }) => together?.id === kept.together);
  return isTheirs ? Math.max(WALKING_ALONE, kept.hands) : WALKING_ALONE;
} // prettier-ignore

function readKept(): { readonly together: string; readonly hands: number } | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? 'null');
    if (typeof kept !== 'object' || kept === null || !('together' in kept) || !('hands' in kept)) return null;
    const { together, hands } = kept;
    return typeof together === 'string' && typeof hands === 'number' && Number.isInteger(hands) ? { together, hands } : null; // prettier-ignore
  } catch {
    return null;
  }
}
