import { newEvent, type DeviceState } from '../src/record/new-event.ts';
import type { Event } from '../src/record/event.ts';

/** A stream of one lot or batch in a few lines: [when in milliseconds UTC, kind, body]; a number names an earlier event. */
export function streamLog(
  streamId: string,
  lines: readonly (readonly [at: number, kind: string, said: object | number])[],
): Event[] {
  let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
  const events: Event[] = [];
  for (const [at, kind, said] of lines) {
    const body = typeof said === 'number' ? { replaces: events[said]?.id ?? '' } : said;
    const randomBytes = new Uint8Array(10).fill(events.length);
    const made = newEvent({ kind, body, streamId, happenedAt: at, loggedAt: at, person: 'M', device, randomBytes });
    device = made.device;
    events.push(made.event);
  }
  return events;
}
