import type { Context, MiddlewareHandler } from 'hono';
import { HTTPException } from 'hono/http-exception';
import { addressKey } from './share/addresses.ts';
import type { Sharing } from './share/sharing.ts';
import { doorIn } from './share/who.ts';

/**
 * Refusals that one asker gets in a minute before it is told to wait: far more than a device that stumbles (an app asks
 * anew every few seconds), far fewer than somebody who searches. Our own choice.
 */
export const MOST_REFUSED = 120;
const MINUTE_MS = 60_000;
/** Askers remembered; beyond, the longest silent one is forgotten. */
const MOST_ASKERS = 1000;
/** What is seen at the vat is taken however badly the same device, or another behind the same address, behaves. */
const ALWAYS = /^\/api\/(events|batches\/[^/]+\/readings)$/;

/** A gentle limit on the network's door: whoever was refused too often is not worked for, until a minute has passed. */
export function noFlood(input: {
  readonly sharing: Sharing | undefined;
  readonly now: () => number;
}): MiddlewareHandler {
  const { sharing, now } = input;
  const asked = new Map<string, { from: number; refused: number }>();
  return async (c, next) => {
    if (doorIn(c, sharing).door === 'own') return next();
    const key = askerOf(c, sharing);
    const known = asked.get(key);
    const count = known !== undefined && now() - known.from < MINUTE_MS ? known : { from: now(), refused: 0 };
    const isNoting = c.get('who').kind === 'device' && c.req.method === 'POST' && ALWAYS.test(c.req.path);
    if (count.refused >= MOST_REFUSED && !isNoting) {
      const wait = Math.ceil((count.from + MINUTE_MS - now()) / 1000);
      c.header('retry-after', String(wait));
      throw new HTTPException(429, { message: `Too many requests that could not be answered: try again in ${wait} s` });
    }
    await next();
    if (c.res.status < 400 || c.res.status >= 500) return;
    asked.delete(key);
    asked.set(key, { ...count, refused: count.refused + 1 });
    const [oldest] = asked.keys();
    if (asked.size > MOST_ASKERS && oldest !== undefined) asked.delete(oldest);
  };
}

/** A paired device by itself, so that nobody else behind its address can use its share up; others by their address. */
function askerOf(c: Context, sharing: Sharing | undefined): string {
  const who = c.get('who');
  return who.kind === 'device' ? `device ${who.device.id}` : `address ${addressKey(doorIn(c, sharing).address)}`;
}
