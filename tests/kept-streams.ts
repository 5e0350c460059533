import type { Event } from '../src/record/event.ts';
import { ALL_KINDS } from '../src/record/keeping-events.ts';
import { newEvent, type DeviceState } from '../src/record/new-event.ts';

/** A stream of something kept, in a few lines: [`2026-03-01` or milliseconds UTC, kind, body]; a number names an earlier event. */
export function keptStream(
  streamId: string,
  lines: readonly (readonly [at: string | number, kind: string, said?: object | number])[],
): Event[] {
  let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
  const events: Event[] = [];
  for (const [when, kind, said = {}] of lines) {
    const at = typeof when === 'number' ? when : Date.parse(`${when}T09:00:00Z`);
    const body = typeof said === 'number' ? { replaces: events[said]?.id ?? '' } : said;
    const randomBytes = new Uint8Array(10).fill(events.length);
    const made = newEvent({ kind, body, streamId, happenedAt: at, loggedAt: at, person: 'M', device, randomBytes, kinds: ALL_KINDS }); // prettier-ignore
    device = made.device;
    events.push(made.event);
  }
  return events;
}
