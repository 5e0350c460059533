import { InputError, problemText } from '../../../numbers/validity.ts';
import { planOfRecord } from '../../../exchange/record-plan.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Event } from '../../../record/event.ts';
import { foldOnce } from '../log/fold-once.ts';

/** A batch as a screen gets it: still opening, not here, here but not to be shown, or open with record and plan. */
export type Batch =
  | { readonly state: 'opening' }
  | { readonly state: 'missing' }
  | { readonly state: 'unreadable'; readonly record: BatchRecord; readonly because: readonly string[] }
  | {
      readonly state: 'open';
      readonly streamId: string;
      readonly record: BatchRecord;
      readonly plan: Plan;
      readonly seed: number;
    };

/** The stream of a batch from what stands in the address. */
export const streamOf = (batchId: string): string => (batchId.startsWith('batch:') ? batchId : `batch:${batchId}`);

/** Folds a batch and fits its frozen make to its frozen answers again; the plan follows from the record alone. */
export function openBatch(input: {
  readonly streamId: string;
  readonly events: readonly Event[] | undefined;
  readonly isReady: boolean;
}): Batch {
  const { streamId, events, isReady } = input;
  if (events === undefined || events.length === 0) return { state: isReady ? 'missing' : 'opening' };
  const record = foldOnce(events);
  if (record.make === null || record.answers === null) return { state: isReady ? 'missing' : 'opening' };
  try {
    const plan = planOf(record);
    return { state: 'open', streamId, record, plan, seed: record.frozenPlans[0]?.seed ?? 1 };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { state: 'unreadable', record, because: error.problems.map(problemText) };
  }
}

const planned = new WeakMap<object, Map<string, Plan>>();

/** One plan a frozen make and what was chosen since, however often the record is folded anew: forecasts go by its identity. */
function planOf(record: BatchRecord): Plan {
  const { make, choices } = record;
  if (make === null) throw new TypeError('a batch that is not open has no plan');
  const known = planned.get(make) ?? new Map<string, Plan>();
  planned.set(make, known);
  const key = JSON.stringify(choices.filter(({ changes }) => changes !== undefined).map(({ changes, at }) => [changes, at])); // prettier-ignore
  const plan = known.get(key) ?? planOfRecord({ record });
  known.set(key, plan);
  return plan;
}
