/** A whole store as the lines of a copy, read page by page: a store of any size, in the memory of one page. */
import { endLine, eventLine, headerLine, type CopyCounts } from '../../../exchange/copy/copy-format.ts';
import { isDemoStream } from '../../../record/event.ts';
import type { EventStore, PlacedEvent, StreamState } from '../../../store/port.ts';
import { nodeSum } from './node-sum.ts';

const PAGE = 1000;

/** A store as it stood at one moment. */
export interface StoreCut {
  readonly streams: readonly StreamState[];
  readonly counts: CopyCounts;
}

/**
 * Where to stop in each stream. Places have no holes and events are never changed, so that all up to these places is the store
 * as it stood when they were read, whoever writes meanwhile. The worked example stays on the device that opened it.
 */
export async function cutOf(store: EventStore): Promise<StoreCut> {
  const streams = (await store.listStreams()).filter(({ streamId, last }) => last > 0 && !isDemoStream(streamId));
  const events = streams.reduce((sum, { last }) => sum + last, 0);
  return { streams, counts: { streams: streams.length, events } };
}

/** The lines of a copy, a page at a time. */
export async function* copyParts(store: EventStore, cut: StoreCut): AsyncGenerator<string> {
  const sum = nodeSum();
  const summed = (text: string): string => {
    sum.update(text);
    return text;
  };
  yield summed(headerLine(cut.counts));
  for (const stream of cut.streams) {
    for await (const page of pagesOf(store, stream)) yield summed(page.map(({ event }) => eventLine(event)).join(''));
  }
  yield endLine(sum.hex());
}

/** The events of one stream up to its place in the cut. */
export async function* pagesOf(store: EventStore, { streamId, last }: StreamState): AsyncGenerator<PlacedEvent[]> {
  for (let after = 0; after < last;) {
    const page = await store.readStream({ streamId, after, limit: Math.min(PAGE, last - after) });
    const reached = page.at(-1)?.n;
    if (reached !== after + page.length) throw new Error(`The store has a hole in ${streamId} after place ${after}.`);
    yield page;
    after = reached;
  }
}
