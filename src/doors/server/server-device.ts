import { randomBytes } from 'node:crypto';
import { SERVER_DEVICE } from '../../exchange/probe/last-posted.ts';
import { clockAfter } from '../../record/clock.ts';
import type { Event } from '../../record/event.ts';
import { newEvent, type DeviceState } from '../../record/new-event.ts';

/** The server as a device that notes things for scripts and probes. */
export interface ServerDevice {
  /** Makes an event after everything seen so far. */
  readonly make: (input: { readonly kind: string; readonly body: unknown; readonly streamId: string; readonly happenedAt: number; readonly loggedAt: number; readonly id?: string }) => Event; // prettier-ignore
  /** The clock goes past what others noted, so that what is made now stands after it. */
  readonly see: (events: readonly Event[], nowMs: number) => void;
}

/** A device of its own each time the server starts: its count begins anew without ever meeting an earlier one. */
export function serverDevice(): ServerDevice {
  let state: DeviceState = {
    deviceId: `${SERVER_DEVICE}${randomBytes(6).toString('hex')}`,
    deviceSeq: 0,
    clock: undefined,
  };
  return {
    make({ id, ...input }) {
      const made = newEvent({ ...input, person: '', device: state, randomBytes: randomBytes(10) });
      state = made.device;
      return id === undefined ? made.event : { ...made.event, id };
    },
    see(seen, nowMs) {
      state = { ...state, clock: clockAfter({ own: state.clock, seen, nowMs }) };
    },
  };
}
