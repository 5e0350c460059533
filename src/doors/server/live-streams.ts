import type { StreamState } from '../../store/port.ts';

/** Passes on which streams have grown. One for each server, handed in. */
export class LiveStreams {
  readonly #listeners = new Set<(state: StreamState) => void>();

  hear(listener: (state: StreamState) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  tell(states: readonly StreamState[]): void {
    for (const state of states) for (const listener of this.#listeners) listener(state);
  }
}
