import type { BatchSummary } from '../record/batch-summary.ts';
import type { EventStore } from './port.ts';

/** A batch as a list shows it, without what it is found by. */
export interface ListedBatch extends Omit<BatchSummary, 'search'> {
  /** Place of its last event, and when that came into the store; milliseconds UTC. */
  readonly last: number;
  readonly changedAt: number;
}

export interface BatchQuery {
  /** Words that must all stand in its name, lot, make or notes; capitals and accents do not count. */
  readonly search?: string;
  readonly makeId?: string;
  /** Id of the last batch of the page before: those that come after it, which are older. */
  readonly before?: string;
  readonly limit: number;
}

/**
 * Batches as lists need them, the newest first (by minute zero, then by id). All of it is worked out from the events, in
 * the same transaction as they are written in: it may be dropped and made anew, and is never the truth.
 */
export interface BatchList {
  /** Batches that were opened and fit the query; empty where `before` is no listed batch. */
  list(query: BatchQuery): Promise<ListedBatch[]>;
  /** Which of these batches are among the newest `count`, opened or not. */
  newestOf(input: { readonly count: number; readonly among: readonly string[] }): Promise<ReadonlySet<string>>;
  /** Last places of every stream that is no batch, and of the newest batches, at most `count` of them. */
  newestStreams(input: { readonly count: number }): Promise<{ readonly streamId: string; readonly last: number }[]>;
  /** Makes the list anew from the events; gives how many batches it looked at. */
  relist(input?: { readonly onBatches?: (done: number) => void }): Promise<number>;
}

/** A store of events that also lists its batches. */
export interface ListedStore extends EventStore {
  readonly batches: BatchList;
}
