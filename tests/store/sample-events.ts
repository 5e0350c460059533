import type { Event } from '../../src/record/event.ts';
import { newEvent, type DeviceState } from '../../src/record/new-event.ts';

const START = 1_790_000_000_000;

/** A device that writes notes: each call gives its next event. */
export function notingDevice(deviceId: string): (text: string, streamId?: string) => Event {
  let device: DeviceState = { deviceId, deviceSeq: 0, clock: undefined };
  const tag = Array.from(deviceId).reduce((sum, letter) => (sum * 31 + letter.charCodeAt(0)) % 65_536, 7);
  return (text, streamId = 'batch:ash') => {
    const at = START + device.deviceSeq * 1000;
    const randomBytes = new Uint8Array(10);
    new DataView(randomBytes.buffer).setUint32(2, device.deviceSeq);
    new DataView(randomBytes.buffer).setUint16(7, tag);
    const made = newEvent({ kind: 'noted', body: { text }, streamId, happenedAt: at, loggedAt: at, person: 'M', device, randomBytes }); // prettier-ignore
    device = made.device;
    return made.event;
  };
}
