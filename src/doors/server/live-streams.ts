import type { EventStore, StreamState } from '../../store/port.ts';

/** What another server writes is told within a second, by far, even on a busy machine. */
const LOOK_MS = 300;

type Listener = (state: StreamState) => void;

/**
 * Passes on which streams have grown: at once what this server writes, and within a second what others write to the
 * same store. One for each server, handed in. Nothing is looked at while nobody listens.
 */
export class LiveStreams {
  readonly #store: Pick<EventStore, 'readGrown'>;
  readonly #lookMs: number;
  /** Who hears of everything, and who of one stream: a tell asks nobody whom it does not concern. */
  readonly #ofAll = new Set<Listener>();
  readonly #ofOne = new Map<string, Set<Listener>>();
  #listening = 0;
  /** Places told already of the streams that the store may name again. */
  #told = new Map<string, number>();
  #mark: number | undefined;
  /** Grows whenever somebody begins to listen or nobody does any more: a look of before ends then. */
  #watch = 0;
  #next: NodeJS.Timeout | undefined;

  constructor(store: Pick<EventStore, 'readGrown'>, lookMs = LOOK_MS) {
    this.#store = store;
    this.#lookMs = lookMs;
  }

  /**
   * Tells a listener of streams that have grown.
   * @param streamIds  of these alone; of all where left out
   * @returns the way to hang up
   */
  hear(listener: Listener, streamIds?: readonly string[]): () => void {
    const rooms = streamIds === undefined ? [this.#ofAll] : streamIds.map((id) => this.#roomOf(id));
    // One listener may be handed in twice and is then two.
    const own: Listener = (state) => listener(state);
    for (const room of rooms) room.add(own);
    if (++this.#listening === 1) this.#lookSoon(++this.#watch);
    let isHung = false;
    return () => {
      if (isHung) return;
      isHung = true;
      for (const room of rooms) room.delete(own);
      for (const id of streamIds ?? []) if (this.#ofOne.get(id)?.size === 0) this.#ofOne.delete(id);
      if (--this.#listening > 0) return;
      this.#watch++;
      clearTimeout(this.#next);
      this.#mark = undefined;
      this.#told.clear();
    };
  }

  tell(states: readonly StreamState[]): void {
    for (const { streamId, last } of states) {
      if (this.#listening === 0 || (this.#told.get(streamId) ?? 0) >= last) continue;
      this.#told.set(streamId, last);
      for (const listener of this.#ofAll) listener({ streamId, last });
      for (const listener of this.#ofOne.get(streamId) ?? []) listener({ streamId, last });
    }
  }

  #roomOf(streamId: string): Set<Listener> {
    const room = this.#ofOne.get(streamId) ?? new Set<Listener>();
    this.#ofOne.set(streamId, room);
    return room;
  }

  #lookSoon(watch: number): void {
    this.#next = setTimeout(() => void this.#look(watch), this.#lookMs);
  }

  async #look(watch: number): Promise<void> {
    try {
      const { streams, mark } = await this.#store.readGrown({ since: this.#mark });
      if (watch !== this.#watch) return;
      this.tell(streams);
      // What is not named any more will not be named again until it grows.
      this.#told = new Map(streams.map(({ streamId }) => [streamId, this.#told.get(streamId) ?? 0]));
      this.#mark = mark;
    } catch {
      // A store out of reach has nothing to tell; the mark stands, and the next look goes on from there.
    }
    if (watch === this.#watch) this.#lookSoon(watch);
  }
}
