import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Event } from '../../../record/event.ts';
import { foldBatch } from '../../../record/fold.ts';

const folded = new WeakMap<readonly Event[], BatchRecord>();

/** The record of a stream as the snapshot holds it, folded once for as long as the stream does not grow. */
export function foldOnce(events: readonly Event[]): BatchRecord {
  const known = folded.get(events);
  if (known !== undefined) return known;
  const record = foldBatch(events);
  folded.set(events, record);
  return record;
}
