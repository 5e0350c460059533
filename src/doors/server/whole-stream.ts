import type { Event } from '../../record/event.ts';
import type { EventStore } from '../../store/port.ts';

const PAGE = 500;

/** Every event of a stream in place order, however many there are: a store gives so many at a time. */
export async function wholeStream(store: Pick<EventStore, 'readStream'>, streamId: string): Promise<readonly Event[]> {
  const events: Event[] = [];
  for (let after = 0; ;) {
    const page = await store.readStream({ streamId, after, limit: PAGE });
    events.push(...page.map(({ event }) => event));
    const last = page.at(-1);
    if (last === undefined || page.length < PAGE) return events;
    after = last.n;
  }
}
