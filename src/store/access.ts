import type { Role } from '../record/may-note.ts';
import type { EventStore } from './port.ts';

/** A device that may ask this server. The secret it shows is not here, only what is left of it after SHA-256. */
export interface PairedDevice {
  readonly id: string;
  /** As whoever paired it called it: "Phone by the sink". */
  readonly name: string;
  readonly role: Role;
  /** SHA-256 of its secret, 64 hexadecimal digits. */
  readonly secretHash: string;
  /** Milliseconds UTC. */
  readonly pairedAt: number;
  readonly seenAt: number;
  /** The device id of the events it notes; null for a script. */
  readonly logDevice: string | null;
}

/**
 * Which devices may ask. Unlike events this is changed and removed: access that was taken away leaves nothing behind.
 * Every driver keeps it beside its events; `tests/store/access.ts` holds them to it.
 */
export interface AccessStore {
  /** @throws when the id is there already */
  add(device: PairedDevice): Promise<void>;
  find(id: string): Promise<PairedDevice | null>;
  /** Every device, the first paired first. */
  list(): Promise<PairedDevice[]>;
  /** Says when a device was last heard; nothing where it is gone. A time before the known one changes nothing. */
  seen(input: { readonly id: string; readonly at: number }): Promise<void>;
  /** @returns whether it was there */
  remove(id: string): Promise<boolean>;
}

/** A store that also keeps who may ask. */
export interface SharedStore extends EventStore {
  readonly access: AccessStore;
}
