import type { Event } from '../record/event.ts';

/** How one event of an append fared: newly written, or already there with the same content. */
export interface Appended {
  readonly id: string;
  readonly state: 'added' | 'known';
}

/** An event with its place in its stream: 1 for the first, without holes. */
export interface PlacedEvent {
  readonly n: number;
  readonly event: Event;
}

export interface StreamState {
  readonly streamId: string;
  /** Place of the stream's last event. */
  readonly last: number;
}

/** Streams that have grown, and the mark to ask on from. */
export interface Grown {
  readonly streams: readonly StreamState[];
  readonly mark: number;
}

/**
 * Where events live. Every driver keeps these promises; `tests/store` holds them to it:
 * what was acknowledged is durable; an append is all or nothing; events are never changed or removed.
 */
export interface EventStore {
  /**
   * Writes events. Known ids are passed over, so a retry is harmless.
   * @throws EventConflictError when an id is known with other content; StoreTooNewError when a newer program has changed
   *   the store meanwhile; then nothing of this append is written
   */
  append(events: readonly Event[]): Promise<Appended[]>;
  /** Events of one stream after place `after` (0 = from the start), in place order, at most `limit` of them. */
  readStream(input: {
    readonly streamId: string;
    readonly after: number;
    readonly limit?: number;
  }): Promise<PlacedEvent[]>;
  /** Those of these events that the store has, in no order. Ask for at most a thousand at once. */
  find(ids: readonly string[]): Promise<Event[]>;
  /** Every stream with its last place, by id; all of it as it stood at one moment. */
  listStreams(): Promise<StreamState[]>;
  /** One stream's last place, 0 where nothing was ever written to it. */
  streamState(streamId: string): Promise<StreamState>;
  /**
   * Every event, at most `limit` of them, stream by stream and each stream in place order; `after` is the last one
   * that was read, 0 at the start. Which stream stands before which is the engine's own affair, the same each time.
   */
  readAll(input: { readonly after: 0 | PlacedEvent; readonly limit?: number }): Promise<PlacedEvent[]>;
  /**
   * Which streams have grown since a mark that this function gave, whoever wrote to them: another process, another
   * server. Each one that has grown is named; one that has not may be too, so the places tell. Without a mark, a mark to
   * begin with. Cheap where nothing has changed. With `most`, at most so many, those that have grown last.
   */
  readGrown(input: { readonly since: number | undefined; readonly most?: number }): Promise<Grown>;
  close(): Promise<void>;
}

/** The store was written by a newer program, whose rules this one does not know. */
export class StoreTooNewError extends Error {
  constructor(input: { readonly found: number; readonly known: number }) {
    super(
      `This store has format ${input.found}; this program knows formats up to ${input.known}. ` +
        'Nothing was changed. Start the newer program, or use another data folder or database.',
    );
    this.name = 'StoreTooNewError';
  }
}

/** The store is out of reach just now: its database restarts, or the network to it is gone. What was acknowledged is kept. */
export class StoreUnreachableError extends Error {
  constructor(cause: unknown) {
    super('The store cannot be reached just now. What was acknowledged is kept; try again in a moment.', { cause });
    this.name = 'StoreUnreachableError';
  }
}

/** Another program has held the store's file for longer than one waits: it changes the format of a large one, or a copy is taken in. */
export class StoreBusyError extends StoreUnreachableError {
  constructor(cause: unknown) {
    super(cause);
    this.message =
      'Another program is writing to the store just now. What was acknowledged is kept; try again in a moment.';
    this.name = 'StoreBusyError';
  }
}
