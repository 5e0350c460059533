import { PLAIN_BOOK, type Book } from '../../../exchange/book.ts';
import type { Event } from '../../../record/event.ts';
import { foldOnce } from '../log/fold-once.ts';
import { openBatch, type Batch } from '../vat/batch.ts';

export type OpenBatch = Extract<Batch, { state: 'open' }>;

/** So many fit into one plot and still have room for their names: our own choice. */
export const MOST_OTHERS = 6;

/**
 * The finished batches of the same make, newest first, this one left out. The worked example is compared with itself
 * alone, and never with somebody's own cheese.
 */
export function othersOf(input: {
  readonly mine: OpenBatch;
  readonly streams: ReadonlyMap<string, readonly Event[]>;
  readonly book?: Book;
}): readonly OpenBatch[] {
  const { mine, streams, book = PLAIN_BOOK } = input;
  return [...streams]
    .filter(([id]) => id.startsWith('batch:') && id !== mine.streamId)
    .filter(([, events]) => {
      const { finishedAt, make, demo } = foldOnce(events);
      return finishedAt !== null && make?.['id'] === mine.plan.make.id && demo === mine.record.demo;
    })
    .flatMap(([streamId, events]) => {
      const batch = openBatch({ streamId, events, isReady: true, book });
      return batch.state === 'open' ? [batch] : [];
    })
    .sort((a, b) => b.record.zeroAt - a.record.zeroAt);
}
