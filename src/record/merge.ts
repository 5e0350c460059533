import type { Event } from './event.ts';
import { inOrder } from './order.ts';

/** Two events carry the same id and say different things. Ids are made once, so one of the two was altered. */
export class EventConflictError extends Error {
  readonly eventId: string;

  constructor(eventId: string) {
    super(
      `Event ${eventId} exists with other content. Events are never edited: ` +
        'a correction is an event of its own. Keep both files and look at which one was altered.',
    );
    this.name = 'EventConflictError';
    this.eventId = eventId;
  }
}

/** One text for one value, whatever order its keys came in. */
export function canonicalText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalText).join(',')}]`;
  if (typeof value === 'object' && value !== null) {
    const fields = Object.entries(value)
      .filter(([, field]) => field !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1));
    return `{${fields.map(([key, field]) => `${JSON.stringify(key)}:${canonicalText(field)}`).join(',')}}`;
  }
  return JSON.stringify(value) ?? 'null';
}

/** True when both say the same, key order aside. */
export function isSameEvent(a: Event, b: Event): boolean {
  return a === b || canonicalText(a) === canonicalText(b);
}

/**
 * The union of two logs by event id, in fold order. Any order of merging gives the same list.
 * @throws EventConflictError when one id stands for two different events
 */
export function mergeEvents(a: readonly Event[], b: readonly Event[]): Event[] {
  const byId = new Map<string, Event>();
  for (const event of [...a, ...b]) {
    const known = byId.get(event.id);
    if (known === undefined) byId.set(event.id, event);
    else if (!isSameEvent(known, event)) throw new EventConflictError(event.id);
  }
  return inOrder([...byId.values()]);
}
