import { isAtLeast, mayNote, type Role } from '../../../record/may-note.ts';
import type { PairedDevice, SharedStore } from '../../../store/access.ts';
import type { ListedStore } from '../../../store/batch-list.ts';

/** Newest batches whose first event is looked at: as many as a device follows. Our own choice. */
const LOOKED_AT = 300;

/** A device that asks to be paired with the name that its events go by. */
export interface Naming {
  readonly logDevice: string;
  /** What the code gives it. */
  readonly role: Role;
  /** The device that it proves to be by the token it shows; null where it shows none. */
  readonly proven: PairedDevice | null;
}

/**
 * Whether a name belongs to a device that may do more than whoever asks for it would: one that is paired, or one that
 * has begun one of the newest makes, which the sharing machine's own browser does without being paired. Every event
 * shows the name of its device, so knowing it proves nothing.
 */
export async function isHeldHigher(input: {
  readonly naming: Naming;
  readonly devices: readonly PairedDevice[];
  readonly store: ListedStore;
}): Promise<boolean> {
  const { naming, devices, store } = input;
  const { logDevice, role, proven } = naming;
  if (role === 'maker') return false;
  const others = devices.filter((device) => device.logDevice === logDevice && device.id !== proven?.id);
  if (others.some((device) => !isAtLeast(role, device.role))) return true;
  return proven?.logDevice === logDevice ? false : hasBegunMakes(store, logDevice);
}

/**
 * Gives a name to the device that was just paired in its own: what held it in a lesser role, which may have been
 * somebody else all along, holds it no longer.
 * @returns the ids of the devices whose access ended
 */
export async function takeFromLesser(input: {
  readonly naming: Naming;
  readonly devices: readonly PairedDevice[];
  readonly access: SharedStore['access'];
}): Promise<string[]> {
  const { naming, devices, access } = input;
  const lesser = devices.filter(({ logDevice, role }) => logDevice === naming.logDevice && !isAtLeast(role, naming.role)); // prettier-ignore
  for (const { id } of lesser) await access.remove(id);
  return lesser.map(({ id }) => id);
}

async function hasBegunMakes(store: ListedStore, deviceId: string): Promise<boolean> {
  const newest = await store.batches.list({ limit: LOOKED_AT });
  for (const { batchId } of newest) {
    const [first] = await store.readStream({ streamId: batchId, after: 0, limit: 1 });
    if (first?.event.deviceId === deviceId && !mayNote('helper', first.event.kind)) return true;
  }
  return false;
}
