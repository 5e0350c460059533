/** What a record stands for at a moment, and what could be done from there. */
import { advise, type Advice, type Outside } from '../forecast/advise.ts';
import { onCourse, type OnCourse } from '../forecast/on-course.ts';
import { simulate } from '../forecast/simulate.ts';
import type { Make } from '../make/make.ts';
import type { Plan } from '../make/plan.ts';
import type { BatchRecord } from '../record/batch-record.ts';
import { historyOf } from './history.ts';
import { fittedOfRecord } from './record-plan.ts';
import { whenPlanned } from './when-planned.ts';

export interface RecordAdvice {
  readonly batchId: string;
  readonly name: string;
  readonly plan: Plan;
  readonly course: OnCourse;
  readonly advice: Advice | Outside;
}

/**
 * Course and choices of one batch.
 * @param input.nowAt  the moment seen as now, milliseconds UTC
 * @param input.others  makes that it might become
 * @throws InputError where the record does not hold the make and the answers it began with
 */
export function recordAdvice(input: {
  readonly record: BatchRecord;
  readonly nowAt: number;
  readonly others: readonly Make[];
  readonly seed?: number;
  readonly members?: number;
}): RecordAdvice {
  const { record, nowAt, others, seed = record.frozenPlans[0]?.seed ?? 1, members } = input;
  const { plan, answers } = fittedOfRecord({ record, untilAt: nowAt });
  const history = historyOf({ record, nowAt });
  const run = { seed, ...(members === undefined ? {} : { members }) };
  const forecast = simulate({ plan, history, ...run });
  const planned = simulate({ plan, history: whenPlanned(record, nowAt), ...run });
  return {
    batchId: record.batchId,
    name: record.name,
    plan,
    course: onCourse({ plan, history, forecast, planned }),
    advice: advise({ plan, answers, history, others, ...run }),
  };
}
