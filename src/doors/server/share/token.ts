import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/** Bytes of a device's secret: 256 bits, so that its plain SHA-256 cannot be searched. */
const SECRET_BYTES = 32;
const ID_BYTES = 12;
const TOKEN = /^([A-Za-z0-9_-]{16})\.([A-Za-z0-9_-]{43})$/;

/** What a device shows: its id, to find it by, and its secret, of which only the hash is kept here. */
export interface NewToken {
  readonly id: string;
  readonly secretHash: string;
  /** Given to the device once and never kept. */
  readonly token: string;
}

export function newToken(): NewToken {
  const id = randomBytes(ID_BYTES).toString('base64url');
  const secret = randomBytes(SECRET_BYTES).toString('base64url');
  return { id, secretHash: hashOf(secret), token: `${id}.${secret}` };
}

/** The id and the secret of a token; null for anything else. */
export function readToken(token: string): { readonly id: string; readonly secret: string } | null {
  const [, id, secret] = TOKEN.exec(token) ?? [];
  return id === undefined || secret === undefined ? null : { id, secret };
}

/** Whether a secret is the one that a hash was made of; takes as long for a wrong one as for the right one. */
export function isSecretOf(secret: string, secretHash: string): boolean {
  const kept = Buffer.from(secretHash, 'hex');
  const given = Buffer.from(hashOf(secret), 'hex');
  return kept.length === given.length && timingSafeEqual(kept, given);
}

const hashOf = (secret: string): string => createHash('sha256').update(secret).digest('hex');
