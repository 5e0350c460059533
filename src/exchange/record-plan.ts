/** The plan that a batch follows: its frozen make and answers, and what was chosen otherwise on the way. */
import { adoptedPlan, type Adopted } from '../make/adopt.ts';
import { parseMake } from '../make/make.ts';
import type { Plan } from '../make/plan.ts';
import { planMake } from '../make/planning.ts';
import type { Answers } from '../make/setup.ts';
import { toldDepartures } from '../make/told.ts';
import { InputError } from '../numbers/validity.ts';
import type { BatchRecord } from '../record/batch-record.ts';
import { historyOf, toldOf } from './history.ts';

/**
 * @param input.untilAt choices after this moment are left out, so that a replay shows the plan as it stood; all where left out
 * @throws InputError where the record does not hold the make and answers it began with, or they cannot be read
 */
export function planOfRecord(input: { readonly record: BatchRecord; readonly untilAt?: number }): Plan {
  return fittedOfRecord(input).plan;
}

/** The same plan with the answers that it is fitted to by now. */
export function fittedOfRecord(input: { readonly record: BatchRecord; readonly untilAt?: number }): {
  readonly plan: Plan;
  readonly answers: Answers;
} {
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
  const opened = { plan: planMake({ make, answers: record.answers }), answers: record.answers };
  return since(record, untilAt).reduce(({ plan, answers }, { at, choice }) => {
    const { steps, nowMin } = historyOf({ record, nowAt: at });
    return adoptedPlan({ plan, answers, steps, atMin: nowMin, choice });
  }, opened);
}

/** What was chosen otherwise, and what a mishap took from the kit, in time order. */
function since(record: BatchRecord, untilAt: number): { readonly at: number; readonly choice: Adopted }[] {
  const chosen = record.choices.filter(({ changes, departures }) => changes !== undefined || departures !== undefined);
  const lost = record.mishaps.map((mishap) => ({
    at: mishap.at,
    choice: { departures: toldDepartures(toldOf(mishap, 0)) },
  }));
  return [
    ...chosen.map((choice) => ({ at: choice.at, choice })),
    ...lost.filter(({ choice }) => choice.departures.length > 0),
  ]
    .filter(({ at }) => at <= untilAt)
    .sort((a, b) => a.at - b.at);
}
