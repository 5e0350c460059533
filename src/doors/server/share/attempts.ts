const MINUTE_MS = 60_000;
/** Tries in a minute: a hand that mistypes now and then, from one address and from all of a class together. */
const MOST_BY_ADDRESS = 6;
const MOST_IN_ALL = 60;
/** Addresses remembered; more of them within a minute is an attack, and the count in all holds it. */
const MOST_ADDRESSES = 1000;

/** Counts tries to pair within the last minute, by address and in all. Only wrong ones count. */
export class Attempts {
  readonly #byAddress = new Map<string, number[]>();
  #all: number[] = [];

  /** Seconds to wait before this address may try; 0 where it may now. */
  waitSeconds(address: string, now: number): number {
    const fresh = (times: readonly number[]): number[] => times.filter((at) => now - at < MINUTE_MS);
    this.#all = fresh(this.#all);
    const own = fresh(this.#byAddress.get(address) ?? []);
    const until = Math.max(endOf(own, MOST_BY_ADDRESS), endOf(this.#all, MOST_IN_ALL));
    return until <= now ? 0 : Math.ceil((until - now) / 1000);
  }

  wrong(address: string, now: number): void {
    const own = (this.#byAddress.get(address) ?? []).filter((at) => now - at < MINUTE_MS);
    this.#byAddress.delete(address);
    this.#byAddress.set(address, [...own, now]);
    this.#all.push(now);
    const [oldest] = this.#byAddress.keys();
    if (this.#byAddress.size > MOST_ADDRESSES && oldest !== undefined) this.#byAddress.delete(oldest);
  }
}

/** When the next try is free again: the oldest of the last `most` tries is then a minute old. */
const endOf = (times: readonly number[], most: number): number => {
  const oldest = times.at(-most);
  return oldest === undefined ? 0 : oldest + MINUTE_MS;
};
