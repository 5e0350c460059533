import { useSyncExternalStore } from 'react';
import { useLog } from '../log/log-provider.tsx';
import type { Found } from './instrument.ts';
import { ProbeHold, type ProbeState } from './probe-hold.ts';
import { pickBluetooth } from './web-bluetooth.ts';
import { pickSerial } from './web-serial.ts';

/** A page has one probe, as a vat has; it outlives the screen it was chosen on. */
const hold = new ProbeHold();

export interface Probe {
  readonly state: ProbeState;
  /** Opens the browser's chooser; has to follow a tap. */
  readonly connect: (found: Found) => Promise<void>;
  readonly leave: () => Promise<void>;
}

/** The probe of this page, for one batch. */
export function useProbe(streamId: string): Probe {
  const { log } = useLog();
  const state = useSyncExternalStore(hold.subscribe, hold.snapshot);
  return {
    state,
    async connect(found) {
      const instrument = found.kind === 'serial' ? await pickSerial(found) : await pickBluetooth();
      if (instrument !== null) await hold.connect({ instrument, found, streamId, log });
    },
    leave: () => hold.leave(),
  };
}
