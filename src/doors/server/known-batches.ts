import type { BatchRecord } from '../../record/batch-record.ts';
import type { Event } from '../../record/event.ts';
import { foldBatch } from '../../record/fold.ts';
import type { EventStore } from '../../store/port.ts';
import { restOfStream } from './rest-of-stream.ts';

/** Batches that probes post to at one time; the one not asked for longest makes room (our own choice). */
const MOST_KEPT = 200;

interface Kept {
  readonly after: number;
  /** All but readings: a probe leaves thousands, and where a make stands is told by the others. */
  readonly others: readonly Event[];
  readonly record: BatchRecord;
}

/** How a batch stands, and what has come to it since it was looked at last. */
export interface Looked {
  /** Without its readings. */
  readonly record: BatchRecord;
  readonly fresh: readonly Event[];
}

/** Batches as a server remembers them between two readings of a probe, so that each reading costs no look through the whole batch. */
export class KnownBatches {
  readonly #store: Pick<EventStore, 'readStream'>;
  readonly #kept = new Map<string, Kept>();

  constructor(store: Pick<EventStore, 'readStream'>) {
    this.#store = store;
  }

  /** Reads a stream on from where it was read before; asked one at a time. */
  async look(streamId: string): Promise<Looked> {
    const before = this.#kept.get(streamId);
    const placed = await restOfStream(this.#store, { streamId, after: before?.after ?? 0 });
    const after = placed.at(-1)?.n ?? before?.after ?? 0;
    const fresh = placed.map(({ event }) => event);
    const telling = fresh.filter(({ kind }) => kind !== 'reading');
    const others = before === undefined || telling.length > 0 ? [...(before?.others ?? []), ...telling] : before.others;
    const record = before !== undefined && telling.length === 0 ? before.record : foldBatch(others);
    // The one asked for last stands last; what was never opened is nobody's batch.
    this.#kept.delete(streamId);
    if (record.isOpened) this.#kept.set(streamId, { after, others, record });
    const [oldest] = this.#kept.keys();
    if (this.#kept.size > MOST_KEPT && oldest !== undefined) this.#kept.delete(oldest);
    return { record, fresh };
  }
}
