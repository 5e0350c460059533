import type { EventStore } from './port.ts';

/** A store that says which one it is. */
export interface NamedStore extends EventStore {
  /**
   * The same for as long as the store holds all that it ever told of. A backup that took its place has another: it may lack what
   * devices have read already, and hold other events at the same places later on.
   */
  identity(): Promise<string>;
}
