import type { Event } from '../../../record/event.ts';
import { whyNotNoted, type Noting } from '../../../record/may-note.ts';
import type { EventStore } from '../../../store/port.ts';

const PAGE = 500;

/**
 * Judges the events of one push: why each is not taken, or null.
 * What an event replaces is looked for among those that came with it and in its stream.
 */
export async function judgeFor(input: {
  readonly by: Noting;
  readonly store: EventStore;
  readonly events: readonly Event[];
}): Promise<(event: Event) => string | null> {
  const { by, store, events } = input;
  if (by.role !== 'helper') return (event) => whyNotNoted({ by, event, replaced: undefined });
  const wanted = events.filter((event) => replacedBy(event) !== null);
  const known = new Map(events.map((event) => [event.id, event]));
  for (const streamId of new Set(wanted.map((event) => event.streamId))) {
    for await (const event of wholeStream(store, streamId)) known.set(event.id, event);
  }
  return (event) => {
    const id = replacedBy(event);
    return whyNotNoted({ by, event, replaced: id === null ? undefined : known.get(id) });
  };
}

function replacedBy(event: Event): string | null {
  const { replaces } = event.body;
  return (event.kind === 'retracted' || event.kind === 'corrected') && typeof replaces === 'string' ? replaces : null;
}

async function* wholeStream(store: EventStore, streamId: string): AsyncGenerator<Event> {
  for (let after = 0; ;) {
    const page = await store.readStream({ streamId, after, limit: PAGE });
    for (const { event } of page) yield event;
    const last = page.at(-1);
    if (last === undefined || page.length < PAGE) return;
    after = last.n;
  }
}
