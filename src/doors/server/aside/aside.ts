import { Worker } from 'node:worker_threads';
import { InputError } from '../../../numbers/validity.ts';
import { BusyError } from '../busy.ts';
import type { Told } from './aside-thread.ts';
import type { Done, Given } from './worked-out.ts';

/** A class may ask all at once; whoever comes after so many is told to come again (our own choice). */
const MOST_WAITING = 8;
/** The slowest work there is takes some three seconds on two slow cores; this one never ends (our own choice). */
const LONGEST_MS = 60_000;
/** The thread and its memory go when nobody has asked for so long (our own choice). */
const IDLE_MS = 60_000;

/** Does long work one after the other on a thread of its own, so that no note at the vat waits for it. */
export class Aside {
  readonly #longestMs: number;
  #thread: Worker | undefined;
  #asked = 0;
  #turn: Promise<unknown> = Promise.resolve();
  #idle: NodeJS.Timeout | undefined;

  constructor(longestMs = LONGEST_MS) {
    this.#longestMs = longestMs;
  }

  /** @throws InputError as `workedOut` does; BusyError where too many wait, or one takes too long */
  readonly workOut = async (given: Given): Promise<Done> => {
    if (this.#asked > MOST_WAITING) {
      throw new BusyError(`${MOST_WAITING} questions wait already; come again in some seconds`);
    }
    this.#asked++;
    clearTimeout(this.#idle);
    const answer = this.#turn.then(() => this.#ask(given));
    this.#turn = answer.then(
      () => this.#over(),
      () => this.#over(),
    );
    return answer;
  };

  async close(): Promise<void> {
    clearTimeout(this.#idle);
    const thread = this.#thread;
    this.#thread = undefined;
    await thread?.terminate();
  }

  #over(): void {
    this.#asked--;
    if (this.#asked > 0) return;
    this.#idle = setTimeout(() => void this.close(), IDLE_MS);
    this.#idle.unref();
  }

  #ask(given: Given): Promise<Done> {
    const thread = (this.#thread ??= startThread());
    return new Promise<Done>((resolve, reject) => {
      const end = (): void => {
        clearTimeout(clock);
        thread.off('message', answered).off('error', failed).off('exit', gone);
      };
      const answered = (told: Told): void => {
        end();
        if ('done' in told) resolve(told.done);
        else reject(new InputError(told.problems));
      };
      // Its next question gets a new thread.
      const failed = (error: Error): void => {
        end();
        this.#thread = undefined;
        void thread.terminate();
        reject(error);
      };
      const gone = (): void => failed(new BusyError('The server was stopped while it worked this out'));
      const clock = setTimeout(() => failed(new BusyError(`This took longer than ${this.#longestMs / 1000} s; ask for less of it`)), this.#longestMs); // prettier-ignore
      thread.on('message', answered).on('error', failed).on('exit', gone);
      thread.postMessage(given);
    });
  }
}

/** Bundled it lies beside this file; from the sources it is started as the command is. */
function startThread(): Worker {
  const isSource = import.meta.url.endsWith('.ts');
  const file = isSource ? '../../../../bin/aside-thread.mjs' : './aside-thread.mjs';
  const thread = new Worker(new URL(file, import.meta.url), { execArgv: [] });
  // Nobody waits for it when the server is to end.
  thread.unref();
  return thread;
}
