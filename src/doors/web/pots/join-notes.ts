import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Note } from '../log/event-log.ts';

/** A curd joined to another pot's, noted in both: where it went, and what came in. */
export function joinNotes(input: {
  readonly from: BatchRecord;
  readonly to: BatchRecord;
  readonly massKg: number | null;
}): Note[] {
  const { from, to, massKg } = input;
  const mass = massKg === null ? {} : { massKg };
  return [
    { kind: 'joined', streamId: from.batchId, body: { way: 'gave', pot: to.batchId, name: to.name, ...mass } },
    { kind: 'joined', streamId: to.batchId, body: { way: 'took', pot: from.batchId, name: from.name, ...mass } },
  ];
}
