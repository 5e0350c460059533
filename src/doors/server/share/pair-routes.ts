import type { Context } from 'hono';
import { setCookie } from 'hono/cookie';
import { HTTPException } from 'hono/http-exception';
import { z } from 'zod';
import { InputError } from '../../../numbers/validity.ts';
import { eventSchema } from '../../../record/event.ts';
import { ROLES } from '../../../record/may-note.ts';
import { problemsOf } from '../../../record/parse-event.ts';
import { problemAnswer } from '../problem.ts';
import { readJson } from '../read-json.ts';
import type { Route } from '../route.ts';
import type { ListedStore } from '../../../store/batch-list.ts';
import { addressKey } from './addresses.ts';
import { Attempts } from './attempts.ts';
import { isHeldHigher, takeFromLesser, type Naming } from './held-name.ts';
import type { LiveLines } from './live-lines.ts';
import type { Sharing } from './sharing.ts';
import { newToken } from './token.ts';
import { COOKIES, doorIn, isOverTls } from './who.ts';

/** As long as browsers keep a cookie at most (draft of RFC 6265bis, section 5.5: 400 days). */
const COOKIE_LASTS_S = 400 * 24 * 3600;
/** Twice what one server was tried with at once (docs/reliability.md, two hundred vats); our own choice. */
export const MOST_DEVICES = 2000;
/** Nothing that is not meant to be read: such signs could drive the terminal that the name is printed on. */
const nameSchema = z.string().trim().min(1).max(80).regex(/^[^\p{C}]+$/u); // prettier-ignore

const bodySchema = z.strictObject({
  code: z.string().max(20).regex(/^\s*(\d\s*){8}$/, 'eight digits'),
  /** What the device is called in the list: "Phone by the sink". */
  name: nameSchema,
  /** The device id of the events that it notes; scripts have none. */
  logDevice: eventSchema.shape.deviceId.optional(),
  /** The token in the answer instead of a cookie, for scripts. */
  bearer: z.boolean().optional(),
}); // prettier-ignore

/** Pairing a device by the code that the sharing machine shows, and what a device may do. */
export function pairRoutes(input: {
  readonly sharing: Sharing | undefined;
  readonly store: ListedStore;
  readonly lines: LiveLines;
  readonly now: () => number;
}): Route[] {
  const { sharing, store, lines, now } = input;
  const attempts = new Attempts();
  return [
    {
      method: 'get',
      path: '/api/me',
      needs: 'anyone',
      summary: 'What the asking device may do: its role and name, null where it is not paired.',
      result: z.object({ role: z.enum(ROLES).nullable(), name: z.string().nullable() }),
      answer(c) {
        const who = c.get('who');
        return c.json({ role: who.role, name: who.kind === 'device' ? who.device.name : null });
      },
    },
    {
      method: 'post',
      path: '/api/pair',
      needs: 'anyone',
      summary: 'Pairs a device by the code that the sharing machine shows; a cookie, or a token where "bearer" is asked for.', // prettier-ignore
      body: bodySchema,
      result: z.object({ role: z.enum(ROLES), name: z.string(), token: z.string().optional() }),
      async answer(c) {
        if (sharing === undefined) {
          throw new HTTPException(409, { message: 'This Vatside is not shared: start it with vatside serve --share' });
        }
        const address = addressKey(doorIn(c, sharing).address);
        const wait = attempts.waitSeconds(address, now());
        if (wait > 0) {
          c.header('retry-after', String(wait));
          return problemAnswer(c, { status: 429, title: `Too many wrong codes: try again in ${wait} s` });
        }
        const parsed = bodySchema.safeParse(await readJson(c));
        // The code is not sent back, not even a wrong one.
        if (!parsed.success) throw new InputError(problemsOf(parsed.error, '').map((one) => ({ ...one, value: undefined }))); // prettier-ignore
        return paired({ c, sharing, store, lines, attempts, address, nowAt: now(), body: parsed.data });
      },
    },
  ];
}

async function paired(input: {
  readonly c: Context;
  readonly sharing: Sharing;
  readonly store: ListedStore;
  readonly lines: LiveLines;
  readonly attempts: Attempts;
  readonly address: string;
  readonly nowAt: number;
  readonly body: z.infer<typeof bodySchema>;
}): Promise<Response> {
  const { c, sharing, store, lines, attempts, address, nowAt, body } = input;
  const { name, logDevice = null, bearer = false } = body;
  const role = sharing.code.roleFor(body.code.replaceAll(/\s/g, ''));
  if (role === null) {
    attempts.wrong(address, nowAt);
    const isDead = sharing.code.shown() === null;
    throw new HTTPException(403, { message: isDead ? 'No code counts now: ask for a new one at the machine that shares' : 'That is not the code that counts now' }); // prettier-ignore
  }
  const before = c.get('who');
  const proven = before.kind === 'device' ? before.device : null;
  const devices = await sharing.access.list();
  const naming: Naming | null = logDevice === null ? null : { logDevice, role, proven };
  if (naming !== null && (await isHeldHigher({ naming, devices, store }))) {
    throw new HTTPException(409, {
      message: `The log knows ${logDevice} as a device that may do more, and this request does not show its token. Pair with another name of its own, or as a maker`,
    });
  }
  if (devices.length - (proven === null ? 0 : 1) >= MOST_DEVICES) {
    throw new HTTPException(409, {
      message: `${MOST_DEVICES} devices are paired, and no more are let in: at the machine that shares, take away the access of those that are not used`,
    });
  }
  const { id, secretHash, token } = newToken();
  const device = { id, name, role, secretHash, pairedAt: nowAt, seenAt: nowAt, logDevice };
  await sharing.access.add(device);
  // Paired anew, perhaps in another role: the access it had before ends.
  if (proven !== null) {
    await sharing.access.remove(proven.id);
    lines.end(proven.id);
  }
  if (naming !== null)
    for (const ended of await takeFromLesser({ naming, devices, access: sharing.access })) lines.end(ended);
  c.set('who', { kind: 'device', role, device });
  if (bearer) return c.json({ role, name, token });
  const isSecure = isOverTls(c, sharing);
  setCookie(c, isSecure ? COOKIES.secure : COOKIES.plain, token, {
    httpOnly: true,
    sameSite: 'Strict',
    path: '/',
    secure: isSecure,
    maxAge: COOKIE_LASTS_S,
  });
  return c.json({ role, name });
}
