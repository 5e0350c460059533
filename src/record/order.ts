import type { Event } from './event.ts';

/** Negative, zero or positive as `a` stands before, with or after `b` in the fold: clock, then device, then its count. */
export function compareEvents(a: Event, b: Event): number {
  if (a.clock !== b.clock) return a.clock < b.clock ? -1 : 1;
  if (a.deviceId !== b.deviceId) return a.deviceId < b.deviceId ? -1 : 1;
  if (a.deviceSeq !== b.deviceSeq) return a.deviceSeq - b.deviceSeq;
  // Only a device that was copied can reach this line; ids still give one order everywhere.
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/** The same events in fold order; the argument is left as it is. */
export function inOrder(events: readonly Event[]): Event[] {
  return [...events].sort(compareEvents);
}
