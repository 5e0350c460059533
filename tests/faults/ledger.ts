import { z } from 'zod';
import { eventSchema, type Event } from '../../src/record/event.ts';
import { foldBatch } from '../../src/record/fold.ts';
import { canonicalText } from '../../src/record/merge.ts';

const streamsSchema = z.object({ streams: z.array(z.object({ streamId: z.string(), last: z.int() })) });
const pageSchema = z.object({ events: z.array(z.object({ n: z.int(), event: eventSchema })), last: z.int() });

/** A reader that remembers everything a server has ever shown it, and complains when any of it is gone, moved or there twice. */
export class Ledger {
  lost = 0;
  duplicated = 0;
  readonly wrong: string[] = [];
  readonly #streams = new Map<string, Event[]>();
  readonly #places = new Map<string, { readonly streamId: string; readonly text: string }>();

  /** Events seen so far. */
  get size(): number {
    return this.#places.size;
  }

  /** Reads every stream on from where it was read to last. @throws where the server does not answer */
  async readOn(url: string): Promise<void> {
    const { streams } = streamsSchema.parse(await (await fetch(`${url}/api/streams`)).json());
    for (const { streamId, last } of streams) {
      const seen = this.#streams.get(streamId) ?? [];
      this.#streams.set(streamId, seen);
      if (last < seen.length) {
        this.lost += seen.length - last;
        this.wrong.push(`${streamId} ended at ${seen.length} and ends at ${last} now`);
      }
      while (seen.length < last) {
        const page = await pageOf(url, { streamId, after: seen.length });
        if (page.length === 0) throw new Error(`${streamId} says ${last} and gives nothing after ${seen.length}`);
        for (const { n, event } of page) this.#take({ streamId, n, event }, seen);
      }
    }
  }

  /** Reads one stream, or all of them, again from the start: what was seen must be there, place by place, and tell the same. */
  async readAgain(url: string, only?: string): Promise<void> {
    for (const [streamId, seen] of this.#streams) {
      if (only !== undefined && streamId !== only) continue;
      const again: Event[] = [];
      while (again.length < seen.length) {
        const page = await pageOf(url, { streamId, after: again.length });
        if (page.length === 0) break;
        again.push(...page.map(({ event }) => event));
      }
      const differing = seen.filter((event, index) => canonicalText(again[index]) !== canonicalText(event)).length;
      if (differing > 0) {
        this.lost += differing;
        this.wrong.push(`${differing} places of ${streamId} hold something else than they did`);
      }
      if (only === undefined) continue;
      const standing = canonicalText(foldBatch(again.slice(0, seen.length)));
      if (standing !== canonicalText(foldBatch(seen))) this.wrong.push(`${streamId}: steps and timers stand otherwise than before`); // prettier-ignore
    }
  }

  /** Counts acknowledged events that were not read, or read as something else. */
  hold(acknowledged: Iterable<Event>): void {
    for (const event of acknowledged) {
      const place = this.#places.get(event.id);
      if (place?.text === canonicalText(event)) continue;
      this.lost++;
      this.wrong.push(`acknowledged and ${place === undefined ? 'gone' : 'altered'}: ${event.id} of ${event.deviceId}`);
    }
  }

  /** Counts ids that were promised and not read. */
  holdIds(ids: Iterable<string>): void {
    for (const id of ids) {
      if (this.#places.has(id)) continue;
      this.lost++;
      this.wrong.push(`acknowledged and gone: ${id}`);
    }
  }

  #take(placed: { readonly streamId: string; readonly n: number; readonly event: Event }, seen: Event[]): void {
    const { streamId, n, event } = placed;
    if (n !== seen.length + 1) this.wrong.push(`${streamId} has no place ${seen.length + 1}`);
    if (this.#places.has(event.id)) {
      this.duplicated++;
      this.wrong.push(`${event.id} is there twice`);
    }
    this.#places.set(event.id, { streamId, text: canonicalText(event) });
    seen.push(event);
  }
}

async function pageOf(
  url: string,
  input: { readonly streamId: string; readonly after: number },
): Promise<z.infer<typeof pageSchema>['events']> {
  const { streamId, after } = input;
  const answer = await fetch(`${url}/api/streams/${encodeURIComponent(streamId)}/events?after=${after}`);
  return pageSchema.parse(await answer.json()).events;
}
