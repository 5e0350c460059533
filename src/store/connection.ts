import { openDB, type DBSchema, type IDBPDatabase, type OpenDBCallbacks } from 'idb';

/**
 * What a browser says when it has lost its hold on a database (a tab asleep for hours, storage cleaned up, its storage process
 * gone): nothing of the change stands, and a new connection may well serve. Indexed Database API 3.0 (W3C), sections 2.1 and 2.7.
 */
const LOST: readonly string[] = ['InvalidStateError', 'AbortError', 'UnknownError'];

/** A connection to a browser's database, opened when it is wanted and once more when the browser has lost it. */
export class Connection<S extends DBSchema> {
  readonly #open: () => Promise<IDBPDatabase<S>>;
  #db: Promise<IDBPDatabase<S>> | null = null;
  #isClosed = false;

  constructor(input: {
    readonly name: string;
    readonly format: number;
    readonly upgrade: NonNullable<OpenDBCallbacks<S>['upgrade']>;
  }) {
    this.#open = () =>
      openDB<S>(input.name, input.format, {
        upgrade: input.upgrade,
        // A newer app in another tab must not wait for this one.
        blocking: (_current, _wanted, event) => {
          if (event.target instanceof IDBDatabase) event.target.close();
        },
        terminated: () => {
          this.#db = null;
        },
      });
  }

  /**
   * Runs one whole transaction. Where the connection turns out to be lost, it is opened anew and the transaction run again, once:
   * a change that was not kept leaves nothing behind.
   * @throws what the database says, the second time; a full disk or a wrong event at once
   */
  async use<T>(run: (db: IDBPDatabase<S>) => Promise<T>): Promise<T> {
    const first = await this.#connected();
    try {
      return await run(first);
    } catch (error) {
      if (!(error instanceof DOMException) || !LOST.includes(error.name) || this.#isClosed) throw error;
      this.#db = null;
      first.close();
      return run(await this.#connected());
    }
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    (await this.#db)?.close();
  }

  #connected(): Promise<IDBPDatabase<S>> {
    this.#db ??= this.#open();
    return this.#db;
  }
}
