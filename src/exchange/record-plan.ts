/** The plan that a batch follows: its frozen make and answers, and what was chosen otherwise on the way. */
import { parseMake } from '../make/make.ts';
import type { Plan } from '../make/plan.ts';
import { planMake } from '../make/planning.ts';
import { changedUnderWay } from '../make/under-way.ts';
import { InputError } from '../numbers/validity.ts';
import type { BatchRecord } from '../record/batch-record.ts';
import { historyOf } from './history.ts';

/**
 * @param input.untilAt choices after this moment are left out, so that a replay shows the plan as it stood; all where left out
 * @throws InputError where the record does not hold the make and answers it began with, or they cannot be read
 */
export function planOfRecord(input: { readonly record: BatchRecord; readonly untilAt?: number }): Plan {
  const { record, untilAt = Number.POSITIVE_INFINITY } = input;
  if (record.make === null || record.answers === null) {
    throw new InputError([
      {
        code: 'missing',
        field: 'batchOpened',
        value: undefined,
        expected: 'the event that opened the batch, with its make and answers',
        remedy: 'Export the whole record; a part of it cannot be replayed.',
      },
    ]);
  }
  const make = parseMake(record.make);
  let { answers } = record;
  let plan = planMake({ make, answers });
  for (const { changes, at } of record.choices) {
    if (changes === undefined || at > untilAt) continue;
    answers = { ...answers, changes: { ...answers.changes, ...changes } };
    const { steps, nowMin } = historyOf({ record, nowAt: at });
    plan = changedUnderWay({ before: plan, after: planMake({ make, answers }), steps, atMin: nowMin });
  }
  return plan;
}
