import type { History } from '../make/history.ts';
import type { Fault } from './explain-faults.ts';
import type { Seen } from './explain-seen.ts';
import type { Likelihood } from './explain-weigh.ts';

/** What a clue is about, for the words: its kind and what was noted. */
export type ClueAbout =
  | { readonly kind: 'reading'; readonly quantity: History['readings'][number]['quantity']; readonly sample: History['readings'][number]['sample']; readonly value: number; readonly elapsedMin: number; readonly stepId: string | null }
  | { readonly kind: 'judgement'; readonly judgement: History['judgements'][number]['judgement']; readonly grade: string; readonly elapsedMin: number }
  | { readonly kind: 'lasted'; readonly stepId: string; readonly minutes: number; readonly isOver: boolean; readonly elapsedMin: number }
  | { readonly kind: 'dose'; readonly ingredient: string; readonly fractionOfPlan: number; readonly elapsedMin: number }
  | { readonly kind: 'noted'; readonly ingredient: string; readonly isNoted: boolean; readonly elapsedMin: number }
  | { readonly kind: 'fault'; readonly fault: Fault; readonly isThere: boolean }; // prettier-ignore

/** One thing in the record that may speak for or against a cause. */
export interface Clue {
  readonly about: ClueAbout;
  readonly likelihood: Likelihood;
  /** From the scale on which it is weighed back to the unit it was noted in. */
  readonly shown: 'plain' | 'exponential';
  /** What a member expected there. */
  readonly expect: (member: Seen) => number;
}

/** Share of readings that are slips, and where a slip may land; as in `observe.ts`. */
export const SLIP = 0.03;
export const SPAN = { pH: 10, temperatureC: 100, ln: 4 } as const;
