/** One that is a little old costs hearing of a few streams again, and a write less each round. */
const KEEP_MS = 60_000;
/** Below the half minute that a server tells anew with every mark. */
const LEAP_MS = 20_000;

/** Where the server was asked to last; each opening of the app looks at everything it follows once. */
export class PullMark {
  #mark: number | null;
  #isOpening = true;
  #at: number | null = null;
  #kept = 0;

  /** @param kept  the mark of the app's last opening, where it kept one */
  constructor(kept: number | null) {
    this.#mark = kept;
  }

  /** What the next round asks with. */
  get asking(): { readonly since: number | null; readonly isOpening: boolean } {
    return { since: this.#mark, isOpening: this.#isOpening };
  }

  /**
   * Takes the mark of a round.
   * @param input.at  this device's clock when the round began, milliseconds UTC
   * @returns whether everything must be looked at once more, because one of the two clocks was set and what was written
   *   meanwhile may stand before the mark; and the mark to keep, null where the kept one will do
   */
  came({ mark, at }: { readonly mark: number | null; readonly at: number }): {
    readonly isMissing: boolean;
    readonly toKeep: number | null;
  } {
    const isLeap = mark !== null && this.#mark !== null && this.#at !== null && Math.abs(mark - this.#mark - (at - this.#at)) > LEAP_MS; // prettier-ignore
    const isMissing = isLeap && !this.#isOpening;
    this.#isOpening = mark === null || isLeap;
    this.#mark = isLeap ? null : mark;
    this.#at = at;
    if (mark === null || Math.abs(mark - this.#kept) < KEEP_MS) return { isMissing, toKeep: null };
    this.#kept = mark;
    return { isMissing, toKeep: mark };
  }
}
