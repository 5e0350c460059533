import { eventSchema, type Event } from '../../../record/event.ts';
import { whyNotNoted, type Noting } from '../../../record/may-note.ts';
import type { EventStore } from '../../../store/port.ts';

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
  const ids = events.flatMap((event) => replacedBy(event) ?? []);
  const known = new Map([...events, ...(await store.find(ids))].map((event) => [event.id, event]));
  return (event) => {
    const replaced = known.get(replacedBy(event) ?? '');
    // What stands elsewhere cannot be set right from here.
    return whyNotNoted({ by, event, replaced: replaced?.streamId === event.streamId ? replaced : undefined });
  };
}

/** The id that an event names; null where it names none, or something that no event is called. */
function replacedBy(event: Event): string | null {
  if (event.kind !== 'retracted' && event.kind !== 'corrected') return null;
  return eventSchema.shape.id.safeParse(event.body['replaces']).data ?? null;
}
