/** Lines of one device: a browser has one, and one more for each tab where its tabs cannot agree. Our own choice. */
export const MOST_LINES = 24;

/** The live lines that are open, by the device that holds them, so that they end with its access; of too many the oldest ends. */
export class LiveLines {
  readonly #ends = new Map<string, Set<() => void>>();

  /** Remembers a line. Returns the way to forget it once it is closed. */
  opened(deviceId: string, end: () => void): () => void {
    const own = this.#ends.get(deviceId) ?? new Set();
    this.#ends.set(deviceId, own);
    own.add(end);
    const [oldest] = own;
    if (own.size > MOST_LINES && oldest !== undefined) {
      own.delete(oldest);
      oldest();
    }
    return () => {
      own.delete(end);
      if (own.size === 0 && this.#ends.get(deviceId) === own) this.#ends.delete(deviceId);
    };
  }

  /** Ends every line of a device. */
  end(deviceId: string): void {
    for (const end of this.#ends.get(deviceId) ?? []) end();
  }
}
