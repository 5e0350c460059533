import { z } from 'zod';
import { ask, hear, type Tally } from './asking.ts';

const grownSchema = z.object({ streams: z.array(z.object({ streamId: z.string(), last: z.int() })), mark: z.int() });
const placedSchema = z.object({ n: z.int(), event: z.object({ id: z.string(), kind: z.string(), loggedAt: z.number() }) }); // prettier-ignore
const pagesSchema = z.object({ pages: z.array(z.object({ streamId: z.string(), events: z.array(placedSchema) })) });
/** As the app asks when it opens, and when it reads on. */
const NEWEST = 300;
const TOGETHER = 100;

/** A tablet with the app open, as far as the server sees it: it follows every make, and reads on whenever one has grown. */
export class App {
  readonly seen = new Set<string>();
  readonly #url: string;
  readonly #tally: Tally;
  readonly #cursors = new Map<string, number>();
  #mark: number | undefined;
  #isReading = false;
  #isWanted = false;

  constructor(input: { readonly url: string; readonly tally: Tally }) {
    this.#url = input.url;
    this.#tally = input.tally;
  }

  async open(): Promise<void> {
    await hear(`${this.#url}/api/live`, () => void this.#read());
    await this.#read();
  }

  /** One round after the other, as long as something has grown meanwhile. */
  async #read(): Promise<void> {
    this.#isWanted = true;
    if (this.#isReading) return;
    this.#isReading = true;
    try {
      while (this.#isWanted) {
        this.#isWanted = false;
        await this.#round();
      }
    } catch (error) {
      this.#tally.fail(error);
    } finally {
      this.#isReading = false;
    }
  }

  async #round(): Promise<void> {
    const asking = this.#mark === undefined ? `newest=${NEWEST}` : `since=${this.#mark}`;
    const { streams, mark } = grownSchema.parse(
      JSON.parse(await ask({ url: this.#url, path: `/api/streams?${asking}` })),
    );
    const left = (): typeof streams =>
      streams.filter(({ streamId, last }) => (this.#cursors.get(streamId) ?? 0) < last);
    for (let grown = left(); grown.length > 0; grown = left()) {
      const places = grown.slice(0, TOGETHER).map(({ streamId }) => ({ streamId, after: this.#cursors.get(streamId) ?? 0 })); // prettier-ignore
      const { pages } = pagesSchema.parse(JSON.parse(await ask({ url: this.#url, path: '/api/pages', body: JSON.stringify({ places }) }))); // prettier-ignore
      this.#tally.pulls++;
      if (pages.every(({ events }) => events.length === 0))
        throw new Error('An app was told of events that it does not get.');
      for (const { streamId, events } of pages) for (const placed of events) this.#take(streamId, placed);
    }
    this.#mark = mark;
  }

  #take(streamId: string, { n, event }: z.infer<typeof placedSchema>): void {
    if (n !== (this.#cursors.get(streamId) ?? 0) + 1) this.#tally.fail(new Error(`${streamId} gave an app place ${n}`));
    this.#cursors.set(streamId, n);
    this.seen.add(event.id);
    if (event.kind === 'reading') this.#tally.everywhereMs.push(Date.now() - event.loggedAt);
  }
}
