import type { EventStore, PlacedEvent } from '../../store/port.ts';

const PAGE = 500;

/** Every event of a stream after a place, in place order, however many there are: a store gives so many at a time. */
export async function restOfStream(
  store: Pick<EventStore, 'readStream'>,
  input: { readonly streamId: string; readonly after: number },
): Promise<readonly PlacedEvent[]> {
  const { streamId } = input;
  const events: PlacedEvent[] = [];
  for (let { after } = input; ;) {
    const page = await store.readStream({ streamId, after, limit: PAGE });
    events.push(...page);
    const last = page.at(-1);
    if (last === undefined || page.length < PAGE) return events;
    after = last.n;
  }
}
