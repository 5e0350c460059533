import type { EventLog } from '../../src/doors/web/log/event-log.ts';
import { openLog } from '../../src/doors/web/log/open-log.ts';
import type { Surroundings } from '../../src/doors/web/log/surroundings.ts';

type Ask = Surroundings['ask'];

/** A network that can be taken away, that loses answers after the server has acted, and that says when streams grow. */
export class Network {
  isUp = true;
  /** Answers to lose from now on: the request arrives, its answer does not. */
  answersToLose = 0;
  requests = 0;
  #server: Ask;
  readonly #listeners = new Set<() => void>();

  constructor(server: Ask) {
    this.#server = server;
  }

  replaceServer(server: Ask): void {
    this.#server = server;
  }

  ask: Ask = async (path, init) => {
    this.requests++;
    if (!this.isUp) throw new TypeError('no network');
    const answer = await this.#server(path, init);
    if (this.answersToLose > 0) {
      this.answersToLose--;
      throw new TypeError('the answer was lost');
    }
    return answer;
  };

  listen = (heard: () => void): (() => void) => {
    this.#listeners.add(heard);
    return () => this.#listeners.delete(heard);
  };

  ring(): void {
    for (const heard of this.#listeners) heard();
  }
}

/** Tabs of one browser: they hear each other and one of them leads. */
export class Tabs {
  readonly #listeners = new Set<() => void>();
  #leading: Promise<void> = Promise.resolve();
  isWithoutLocks = false;
  /** The device's clock, milliseconds UTC. */
  now: () => number = () => Date.now();

  surroundings(network: Network): Surroundings {
    let own: (() => void) | undefined;
    return {
      now: () => this.now(),
      randomBytes: (count) => crypto.getRandomValues(new Uint8Array(count)),
      ask: network.ask,
      listen: network.listen,
      tabs: {
        tell: () => {
          for (const heard of this.#listeners) if (heard !== own) setImmediate(heard);
        },
        hear: (heard) => {
          own = heard;
          this.#listeners.add(heard);
          return () => this.#listeners.delete(heard);
        },
      },
      asLeader: (lead, signal) => {
        if (this.isWithoutLocks) void lead(signal);
        else this.#leading = this.#leading.then(() => lead(signal));
      },
      whenWorthTrying: () => () => undefined,
      keepStorage: () => undefined,
    };
  }
}

let count = 0;

/** A device with a browser of its own. */
export function openDevice(network: Network, tabs = new Tabs(), name = `device-${count++}`): Promise<EventLog> {
  return openLog({ name, around: tabs.surroundings(network) });
}

/** Waits until something holds; fails loudly if it never does. */
export async function until(what: string, holds: () => boolean): Promise<void> {
  for (let look = 0; look < 400; look++) {
    if (holds()) return;
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  throw new Error(`never came true: ${what}`);
}
