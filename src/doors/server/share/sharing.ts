import type { AccessStore } from '../../../store/access.ts';
import type { PairingCode } from './pairing-code.ts';

/** What a server that is shared on a network has besides its log. */
export interface Sharing {
  readonly access: AccessStore;
  readonly code: PairingCode;
  /** Where other devices find this server, the likeliest first: `https://192.0.2.7:4712`. */
  readonly addresses: () => readonly string[];
  /** Host names that it answers under, without a port, in small letters. */
  readonly names: () => readonly string[];
  /** SHA-256 of the certificate that it shows, as devices write it; null over plain HTTP. */
  readonly fingerprint: string | null;
}

/** Which of the two doors a request came in by: this machine's own, or the one that is open to the network. */
export interface Door {
  readonly door: 'own' | 'shared';
  /** Of the other end. */
  readonly address: string;
  /** The version of HTTP that it speaks, `1.1`; left out where the listener did not say. */
  readonly http?: string;
}

/** Reads what the listener said of a request; null where nobody said anything. */
export function doorOf(env: unknown): Door | null {
  if (typeof env !== 'object' || env === null || !('door' in env) || !('address' in env)) return null;
  const { door, address } = env;
  if ((door !== 'own' && door !== 'shared') || typeof address !== 'string') return null;
  return { door, address, ...('http' in env && typeof env.http === 'string' ? { http: env.http } : {}) };
}
