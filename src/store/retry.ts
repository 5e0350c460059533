/** How often work is done again, and how long it rests before that. */
export interface Patience {
  /** Runs in all, the first one included. */
  readonly tries: number;
  /** Longest rest before the second run; doubled before each further one. Milliseconds. */
  readonly firstPauseMs: number;
  readonly longestPauseMs: number;
  /** 0 to 1: what share of its longest rest this one takes, so that two that collided do not collide again. */
  readonly chance: () => number;
  readonly wait: (ms: number) => Promise<void>;
}

/** Some four seconds in all: a database that restarts is back by then, and a page still waits for its answer. */
export const PATIENT: Patience = {
  tries: 12,
  firstPauseMs: 10,
  longestPauseMs: 1000,
  chance: Math.random,
  wait: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
};

/**
 * Does work again while it fails in a way that passes.
 * @param input.work  must be harmless to repeat, even where it was done and only the answer was lost
 * @throws what the work threw last
 */
export async function retrying<T>(input: {
  readonly work: () => Promise<T>;
  readonly isPassing: (error: unknown) => boolean;
  readonly patience: Patience;
}): Promise<T> {
  const { work, isPassing, patience } = input;
  for (let run = 1; ; run++) {
    try {
      return await work();
    } catch (error) {
      if (run >= patience.tries || !isPassing(error)) throw error;
      const longest = Math.min(patience.longestPauseMs, patience.firstPauseMs * 2 ** (run - 1));
      await patience.wait(longest * (0.5 + patience.chance() / 2));
    }
  }
}
