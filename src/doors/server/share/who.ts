import type { Context, MiddlewareHandler } from 'hono';
import { getCookie } from 'hono/cookie';
import { HTTPException } from 'hono/http-exception';
import { isAtLeast, type Noting, type Role } from '../../../record/may-note.ts';
import type { AccessStore, PairedDevice } from '../../../store/access.ts';
import { doorOf, type Door, type Sharing } from './sharing.ts';
import { isSecretOf, readToken } from './token.ts';

/** Whoever asks: somebody at this machine, a device that was paired, or a device that was not. */
export type Who =
  | { readonly kind: 'owner'; readonly role: 'maker' }
  | { readonly kind: 'device'; readonly role: Role; readonly device: PairedDevice }
  | { readonly kind: 'nobody'; readonly role: null };

declare module 'hono' {
  interface ContextVariableMap {
    who: Who;
  }
}

/** The cookie under TLS, where only this very host can have set it, and over plain HTTP. */
export const COOKIES = { secure: '__Host-vatside', plain: 'vatside' } as const;
/** In every answer of the API: what the asking device may do. Pages hear of a change without asking for it. */
const ROLE_HEADER = 'vatside-role';
/** A device's last time is written down once in so long. */
const SEEN_EVERY_MS = 60_000;
/** A request that came through another server stands for somebody else than this machine's owner. */
const PASSED_ON = ['forwarded', 'x-forwarded-for', 'x-forwarded-host', 'x-forwarded-proto', 'x-real-ip', 'via'];
/** Some servers pass requests on in it, saying nothing more; browsers and present tools speak a later one. */
const OLD_HTTP = '1.0';

/** The door of a request. Where nobody said which, the one that lets nobody in without a token. */
export const doorIn = (c: Context, sharing: Sharing | undefined): Door =>
  doorOf(c.env) ?? { door: sharing === undefined ? 'own' : 'shared', address: 'unknown' };

/** Finds out who asks, and says in the answer what they may do. */
export function knowWho(input: {
  readonly sharing: Sharing | undefined;
  readonly now: () => number;
}): MiddlewareHandler {
  const { sharing, now } = input;
  return async (c, next) => {
    const who = await whoAsks({ c, sharing, now });
    c.set('who', who);
    await next();
    c.header(ROLE_HEADER, c.get('who').role ?? 'none');
  };
}

async function whoAsks(input: { c: Context; sharing: Sharing | undefined; now: () => number }): Promise<Who> {
  const { c, sharing, now } = input;
  const { door, http } = doorIn(c, sharing);
  if (door === 'own') {
    const passedOn =
      PASSED_ON.find((name) => c.req.header(name) !== undefined) ?? (http === OLD_HTTP ? `HTTP/${http}` : undefined);
    if (passedOn === undefined) return { kind: 'owner', role: 'maker' };
    throw new HTTPException(403, {
      message: `This request was passed on by another server (${passedOn}). Let that one ask the shared address of vatside serve --share, where every device is paired`,
    });
  }
  const device = sharing === undefined ? null : await deviceOf(sharing.access, tokenOf(c, sharing));
  if (device === null) return { kind: 'nobody', role: null };
  if (now() - device.seenAt > SEEN_EVERY_MS) {
    // Not being able to write the time down keeps nobody from reading.
    await sharing?.access.seen({ id: device.id, at: now() }).catch(() => undefined);
  }
  return { kind: 'device', role: device.role, device };
}

/** Whether the asking page came over TLS: this server's own, or that of one before it, as the page's origin says. */
export const isOverTls = (c: Context, sharing: Sharing): boolean =>
  sharing.fingerprint !== null || (c.req.header('origin') ?? '').startsWith('https:');

/** Over TLS the plain cookie counts for nothing: whoever answers plain HTTP under this name can have set it. */
function tokenOf(c: Context, sharing: Sharing): string {
  const [, bearer] = /^Bearer ([^\s]+)$/i.exec(c.req.header('authorization') ?? '') ?? [];
  const secure = bearer ?? getCookie(c, COOKIES.secure);
  return secure ?? (isOverTls(c, sharing) ? undefined : getCookie(c, COOKIES.plain)) ?? '';
}

async function deviceOf(access: AccessStore, token: string): Promise<PairedDevice | null> {
  const read = readToken(token);
  if (read === null) return null;
  const device = await access.find(read.id);
  return device !== null && isSecretOf(read.secret, device.secretHash) ? device : null;
}

/** Lets on only who may do at least so much; a route that says nothing is for makers. */
export function only(needs: Role | 'anyone' = 'maker'): MiddlewareHandler {
  return async (c, next) => {
    const { role } = c.get('who');
    if (needs !== 'anyone' && role === null) {
      throw new HTTPException(401, { message: 'This device is not paired with this Vatside: pair it at /pair' });
    }
    if (needs !== 'anyone' && role !== null && !isAtLeast(role, needs)) {
      throw new HTTPException(403, { message: `A ${needs} may do this; this device is paired as a ${role}` });
    }
    await next();
  };
}

/** Whoever sends events. */
export function notingOf(who: Who): Noting {
  if (who.kind === 'owner') return { role: 'maker', logDevice: null };
  if (who.kind === 'device') return { role: who.role, logDevice: who.device.logDevice };
  return { role: 'reader', logDevice: null };
}
