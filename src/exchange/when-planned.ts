/** Which plan ran at a moment, and what was known as it was taken. */
import { NO_HISTORY, type History } from '../make/history.ts';
import type { BatchRecord } from '../record/batch-record.ts';
import { historyOf } from './history.ts';

/** What was known as the plan that runs was taken: nothing at the opening, or all up to the last choice that changed it. */
export function whenPlanned(record: BatchRecord, nowAt: number): History {
  const last = record.choices.filter((choice) => choice.at <= nowAt && changesPlan(choice)).at(-1);
  return last === undefined ? NO_HISTORY : historyOf({ record, nowAt: last.at });
}

/** True where a choice changed the plan, not only what was done to the vat at that moment. */
export const changesPlan = ({ changes, departures = [] }: BatchRecord['choices'][number]): boolean =>
  changes !== undefined || departures.some(({ kind }) => kind !== 'done' && kind !== 'added');
