import type { Make } from '../../../make/make.ts';
import type { EventLog } from '../log/event-log.ts';
import type { OwnMake } from '../makes/own-makes.ts';

/**
 * Keeps a make among one's own: in the stream of the make of its id, where there is one, else in a new one. One event, so
 * that nothing of it is ever half there.
 * @returns false where this very make is there already
 */
export async function keepMake(input: {
  readonly log: Pick<EventLog, 'record' | 'newStreamId'>;
  readonly own: readonly Pick<OwnMake, 'make' | 'saved'>[];
  readonly make: Make;
  /** The make it was written from. */
  readonly from?: string;
}): Promise<boolean> {
  const { log, own, make, from } = input;
  const same = own.find((one) => one.make.id === make.id);
  if (same !== undefined && JSON.stringify(same.make) === JSON.stringify(make)) return false;
  const streamId = same?.saved.streamId ?? log.newStreamId('make');
  await log.record({ kind: 'makeSaved', streamId, body: { make, ...(from === undefined ? {} : { from }) } });
  return true;
}
