import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Telling } from '../vat/said.ts';

const MINUTE_MS = 60_000;

/** A pot as the view takes it. */
export interface PotSeen {
  readonly potId: string;
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly planned: Forecast | null;
  readonly failed: string | null;
  readonly heardAt: number | null;
}

export interface PotsInput {
  readonly pots: readonly PotSeen[];
  /** Burners there are; null while nobody has said. */
  readonly burners: number | null;
  /** Pairs of hands; one maker's where left out. */
  readonly hands?: number;
  /** Kettles that heat the water of washing and stretching; none where left out. */
  readonly kettles?: number;
  readonly nowAt: number;
  readonly say: Say;
  readonly write: Writer;
}

/** A pot that has not begun is told as if it began now, or when it was planned to; as at its vat. */
export function tellingOf(
  { nowAt, say, write }: Pick<PotsInput, 'nowAt' | 'say' | 'write'>,
  { record }: Pick<PotSeen, 'record'>,
): Telling {
  const zeroAt = record.steps.length > 0 ? record.zeroAt : Math.max(record.zeroAt, Math.floor(nowAt / MINUTE_MS) * MINUTE_MS); // prettier-ignore
  return { say, write, zeroAt };
}

/** A step's name within a sentence. */
export const inSentence = (name: string): string => name.charAt(0).toLocaleLowerCase() + name.slice(1);
