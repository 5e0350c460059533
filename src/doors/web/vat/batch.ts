import { InputError, problemText } from '../../../numbers/validity.ts';
import { changesPlan } from '../../../exchange/when-planned.ts';
import { fittedOfRecord } from '../../../exchange/record-plan.ts';
import { PLAIN_BOOK, type Book } from '../../../exchange/book.ts';
import type { Plan } from '../../../make/plan.ts';
import type { Answers } from '../../../make/setup.ts';
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
      /** The answers that the plan is fitted to, with what was chosen since. */
      readonly answers: Answers;
      readonly seed: number;
    };

/** The stream of a batch from what stands in the address. */
export const streamOf = (batchId: string): string => (batchId.startsWith('batch:') ? batchId : `batch:${batchId}`);

/** Folds a batch and fits its frozen make to its frozen answers again; the plan follows from the record alone. */
export function openBatch(input: {
  readonly streamId: string;
  readonly events: readonly Event[] | undefined;
  readonly isReady: boolean;
  /** The reader's book: the plan is told in its words. */
  readonly book?: Book;
}): Batch {
  const { streamId, events, isReady, book = PLAIN_BOOK } = input;
  if (events === undefined || events.length === 0) return { state: isReady ? 'missing' : 'opening' };
  const record = foldOnce(events);
  if (record.make === null || record.answers === null) return { state: isReady ? 'missing' : 'opening' };
  try {
    const { plan, answers } = fittedOf(record);
    return { state: 'open', streamId, record, plan: book.plan(plan), answers, seed: record.frozenPlans[0]?.seed ?? 1 };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { state: 'unreadable', record, because: error.problems.map(problemText) };
  }
}

type Fitted = ReturnType<typeof fittedOfRecord>;
const planned = new WeakMap<object, Map<string, Fitted>>();

/** One plan a frozen make and what was chosen since, however often the record is folded anew: forecasts go by its identity. */
function fittedOf(record: BatchRecord): Fitted {
  const { make } = record;
  if (make === null) throw new TypeError('a batch that is not open has no plan');
  const known = planned.get(make) ?? new Map<string, Fitted>();
  planned.set(make, known);
  const key = planKey(record);
  const fitted = known.get(key) ?? fittedOfRecord({ record });
  known.set(key, fitted);
  return fitted;
}

/** What the plan of a record follows from besides its make and answers: each choice that changed it, and what a mishap took. */
export const planKey = ({ choices, mishaps }: BatchRecord): string =>
  [...choices.filter(changesPlan), ...mishaps].map(({ eventId, at, was }) => `${eventId} ${at} ${was.length}`).join();
