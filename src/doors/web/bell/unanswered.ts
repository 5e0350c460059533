import { NOBODY } from '../../../record/alarm.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Entry } from '../vat/actions.ts';
import type { Book } from './book.ts';

/**
 * What is to be noted of every Act that sounded on this device and is over, the step ended or the reading superseded,
 * before anybody answered it.
 *
 * @param input.before  the book as it was kept, with the Act still in it
 * @param input.after  the book as it is now
 * @returns nothing for an Act that is answered, noted as unanswered already, or goes on under a newer reading
 */
export function unanswered(input: {
  readonly before: Book;
  readonly after: Book;
  readonly record: BatchRecord;
}): readonly Entry[] {
  const { before, after, record } = input;
  const rung = Object.values(after.held).filter(({ call }) => call.class === 'act');
  const known = new Set(record.alarms.map((one) => one.alarmId));
  return Object.values(before.held)
    .filter(({ call, soundedAt }) => call.class === 'act' && soundedAt !== null)
    .filter(({ call }) => !known.has(call.id) && !rung.some((one) => one.call.cause === call.cause))
    .map(({ call, dueAt }) => ({
      kind: 'alarmAnswered',
      body: { alarmId: call.id, answer: NOBODY, seen: call.seen, dueAt },
    }));
}
