import type { RawBuilder } from 'kysely';

/** What one SQL engine does in its own way; everything else is the same statements for all. */
export interface SqlEngine {
  /**
   * Runs a whole transaction or a read, and runs it again where the engine asks for that. The work must be harmless to
   * repeat: every append of known events is.
   */
  readonly run: <T>(work: () => Promise<T>) => Promise<T>;
  /** Milliseconds UTC by the one clock that all who share the store have in common. */
  readonly now: () => RawBuilder<number>;
}
