import type { BatchRecord } from '../../../record/batch-record.ts';

/** What helps at the pots of one class: told when its day was planned, kept on this device for these pots alone. */
export interface ClassKit {
  /** Pairs of hands. */
  readonly hands: number;
  /** Kettles that heat the water of washing and stretching, so that it wants no burner. */
  readonly kettles: number;
}

const KEY = 'vatside.class-kit';
/** One maker walks from pot to pot: two pots at once are one too many. */
export const WALKING_ALONE = 1;
const ALONE: ClassKit = { hands: WALKING_ALONE, kettles: 0 };

/** Keeps what there is for the pots that were opened together under this id. */
export const keepKit = (input: ClassKit & { readonly together: string }): void =>
  localStorage.setItem(KEY, JSON.stringify(input));

/** What there is for these pots: what their class has where all are of it, else one maker's hands. */
export function kitFor(records: readonly Pick<BatchRecord, 'together'>[]): ClassKit {
  const kept = readKept();
  const isTheirs = kept !== null && records.length > 0 && records.every(({ together }) => together?.id === kept.together);
  return isTheirs ? { hands: Math.max(WALKING_ALONE, kept.hands), kettles: kept.kettles } : ALONE;
} // prettier-ignore

const isCount = (value: unknown): value is number => typeof value === 'number' && Number.isInteger(value) && value >= 0;

function readKept(): (ClassKit & { readonly together: string }) | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? 'null');
    if (typeof kept !== 'object' || kept === null || !('together' in kept)) return null;
    if (!('hands' in kept) || !('kettles' in kept)) return null;
    const { together, hands, kettles } = kept;
    return typeof together === 'string' && isCount(hands) && isCount(kettles) ? { together, hands, kettles } : null;
  } catch {
    return null;
  }
}
