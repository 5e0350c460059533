import type { Event } from '../record/event.ts';
import { ALL_KINDS } from '../record/keeping-events.ts';
import { newEvent, type DeviceState } from '../record/new-event.ts';

/** Writes the events of one stream, one after the other, as one device would; ids follow from stream and count alone. */
export function scribe(streamId: string): (note: { kind: string; body: object; at: number; person: string }) => Event {
  let device: DeviceState = { deviceId: 'demo-larkenshaw', deviceSeq: 0, clock: undefined };
  const tag = Array.from(streamId).reduce(
    (sum, letter) => (sum * 31 + (letter.codePointAt(0) ?? 0)) % 4_294_967_296,
    7,
  );
  return ({ kind, body, at, person }) => {
    const randomBytes = new Uint8Array(10);
    const view = new DataView(randomBytes.buffer);
    view.setUint32(2, tag);
    view.setUint32(6, device.deviceSeq);
    const made = newEvent({
      kind,
      body,
      streamId,
      happenedAt: at,
      loggedAt: at,
      person,
      device,
      randomBytes,
      kinds: ALL_KINDS,
    });
    device = made.device;
    return made.event;
  };
}
