import { HTTPException } from 'hono/http-exception';
import { z } from 'zod';
import { InputError } from '../../../numbers/validity.ts';
import { ROLES } from '../../../record/may-note.ts';
import { problemsOf } from '../../../record/parse-event.ts';
import { readJson } from '../read-json.ts';
import type { Route } from '../route.ts';
import type { LiveLines } from './live-lines.ts';
import type { Sharing } from './sharing.ts';

const codeSchema = z.strictObject({ role: z.enum(ROLES) });
const stateSchema = z.object({
  /** Null where this Vatside answers its own machine only. */
  sharing: z
    .object({
      addresses: z.array(z.string()),
      fingerprint: z.string().nullable(),
      /** Null where it died of wrong tries. */
      code: z.object({ code: z.string(), endsAt: z.int() }).nullable(),
      /** What the code gives. */
      role: z.enum(ROLES),
      devices: z.array(
        z.object({ id: z.string(), name: z.string(), role: z.enum(ROLES), pairedAt: z.int(), seenAt: z.int(), isAsking: z.boolean() }), // prettier-ignore
      ),
    })
    .nullable(),
  now: z.int(),
});

/** For makers: how this Vatside is shared, a new code, and taking access away. */
export function shareRoutes(input: {
  readonly sharing: Sharing | undefined;
  readonly lines: LiveLines;
  readonly now: () => number;
}): Route[] {
  const { sharing, lines, now } = input;
  const stateFor = async (askingId: string | null): Promise<z.infer<typeof stateSchema>> => {
    if (sharing === undefined) return { sharing: null, now: now() };
    const { access, code, addresses, fingerprint } = sharing;
    const shown = code.shown();
    const devices = (await access.list()).map(({ id, name, role, pairedAt, seenAt }) => ({ id, name, role, pairedAt, seenAt, isAsking: id === askingId })); // prettier-ignore
    return {
      sharing: {
        addresses: [...addresses()],
        fingerprint,
        code: shown === null ? null : { code: shown.code, endsAt: shown.endsAt },
        role: code.role,
        devices,
      },
      now: now(),
    };
  };
  const shared = (): Sharing => {
    if (sharing !== undefined) return sharing;
    throw new HTTPException(409, { message: 'This Vatside is not shared: start it with vatside serve --share' });
  };
  const idOf = (who: { readonly kind: string; readonly device?: { readonly id: string } }): string | null => who.device?.id ?? null; // prettier-ignore
  return [
    {
      method: 'get',
      path: '/api/share',
      needs: 'maker',
      summary: 'How this Vatside is shared: its addresses, the code that counts now, the devices that are paired.',
      result: stateSchema,
      answer: async (c) => c.json(await stateFor(idOf(c.get('who')))),
    },
    {
      method: 'post',
      path: '/api/share/code',
      needs: 'maker',
      summary: 'Makes a new code that gives a role; the one before counts no longer.',
      body: codeSchema,
      result: stateSchema,
      async answer(c) {
        const parsed = codeSchema.safeParse(await readJson(c));
        if (!parsed.success) throw new InputError(problemsOf(parsed.error, ''));
        shared().code.renew(parsed.data.role);
        return c.json(await stateFor(idOf(c.get('who'))));
      },
    },
    {
      method: 'post',
      path: '/api/share/devices/{deviceId}/revoke',
      needs: 'maker',
      summary: 'Takes the access of a device away at once; its live lines end. Send {}.',
      body: z.strictObject({}),
      result: stateSchema,
      async answer(c) {
        const parsed = z.strictObject({}).safeParse(await readJson(c));
        if (!parsed.success) throw new InputError(problemsOf(parsed.error, ''));
        const deviceId = c.req.param('deviceId') ?? '';
        const { access } = shared();
        const wasThere = /^[\w-]{1,64}$/.test(deviceId) && (await access.remove(deviceId));
        lines.end(deviceId);
        if (!wasThere) throw new HTTPException(404, { message: 'No such device is paired' });
        return c.json(await stateFor(idOf(c.get('who'))));
      },
    },
  ];
}
