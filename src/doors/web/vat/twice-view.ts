import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Entry } from './actions.ts';
import type { Telling } from './said.ts';

interface Answer {
  readonly label: string;
  readonly entries: readonly Entry[];
  /** What is said of it once it is noted. */
  readonly said: string;
}

/** What is asked where two devices noted the end of one step, and what either answer notes. */
export interface TwiceView {
  readonly alarmId: string;
  readonly text: string;
  readonly same: Answer;
  readonly both: Answer;
}

/** The oldest such question that nobody has answered; null where there is none, or the make is over. */
export function twiceView(input: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly telling: Telling;
}): TwiceView | null {
  const { record, plan, telling } = input;
  const { say, write } = telling;
  const open = record.twice.find(({ answer }) => answer === null);
  if (open === undefined || record.finishedAt !== null) return null;
  const { alarmId, stepId, ingredient, again } = open;
  const values = {
    what: plan.steps.find(({ id }) => id === stepId)?.done ?? stepId,
    first: write.clock(open.firstAt),
    second: write.clock(open.secondAt),
  };
  const answered = (answer: 'same' | 'both', notes: readonly Entry[]): Answer => {
    const label = say(`vat:twice.${answer}`);
    const entries: Entry[] = [...notes, { kind: 'alarmAnswered', body: { alarmId, answer } }];
    return { label, entries, said: say('vat:twice.said', { ...values, answer: label }) };
  };
  const back = again.map((replaces): Entry => ({ kind: 'retracted', body: { replaces } })).reverse();
  return {
    alarmId,
    text: [say('vat:twice.text', values), ...(ingredient === null ? [] : [say('vat:twice.once')])].join(' '),
    same: answered('same', back),
    both: answered('both', []),
  };
}
