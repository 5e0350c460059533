import { z } from 'zod';
import { ROLES, type Role } from '../../../record/may-note.ts';

const sharingSchema = z.object({
  addresses: z.array(z.string()),
  fingerprint: z.string().nullable(),
  code: z.object({ code: z.string(), endsAt: z.int() }).nullable(),
  role: z.enum(ROLES),
  devices: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      role: z.enum(ROLES),
      pairedAt: z.int(),
      seenAt: z.int(),
      isAsking: z.boolean(),
    }),
  ),
});
export type ShownSharing = z.infer<typeof sharingSchema>;
const stateSchema = z.object({ sharing: sharingSchema.nullable(), now: z.int() });
/** How the server is shared, and its clock. */
export type ShareState = z.infer<typeof stateSchema>;

/** How pairing went. */
export type Paired =
  | { readonly is: 'paired'; readonly role: Role }
  | { readonly is: 'wrong' | 'dead' | 'name' | 'not-shared' | 'held' | 'full' | 'away' }
  | { readonly is: 'wait'; readonly seconds: number };

const JSON_TYPE = { 'content-type': 'application/json' };

/** Asks to be paired; never throws. */
export async function askToPair(input: {
  readonly code: string;
  readonly name: string;
  readonly logDevice: string;
}): Promise<Paired> {
  try {
    const answer = await fetch('/api/pair', { method: 'POST', headers: JSON_TYPE, body: JSON.stringify(input) });
    if (answer.ok) {
      return { is: 'paired', role: z.object({ role: z.enum(ROLES) }).parse(await answer.json()).role };
    }
    if (answer.status === 429) return { is: 'wait', seconds: Number(answer.headers.get('retry-after') ?? 60) };
    if (answer.status === 400) return { is: 'name' };
    if (answer.status !== 403 && answer.status !== 409) return { is: 'away' };
    const { title } = z.object({ title: z.string() }).parse(await answer.json());
    if (answer.status === 409) return { is: inTheWay(title) };
    return { is: title.startsWith('No code') ? 'dead' : 'wrong' };
  } catch {
    return { is: 'away' };
  }
}

function inTheWay(title: string): 'held' | 'full' | 'not-shared' {
  if (title.startsWith('The log knows')) return 'held';
  return /^\d+ devices are paired/.test(title) ? 'full' : 'not-shared';
}

/** The state of sharing; `no` where this device may not see it, `away` where nobody answers. */
export type Asked = ShareState | 'no' | 'away';

async function asked(path: string, body?: object): Promise<Asked> {
  try {
    const init = body === undefined ? {} : { method: 'POST', headers: JSON_TYPE, body: JSON.stringify(body) };
    const answer = await fetch(path, init);
    if (answer.status === 401 || answer.status === 403) return 'no';
    return answer.ok ? stateSchema.parse(await answer.json()) : 'away';
  } catch {
    return 'away';
  }
}

export const askSharing = (): Promise<Asked> => asked('/api/share');
export const askNewCode = (role: Role): Promise<Asked> => asked('/api/share/code', { role });
export const takeAway = (id: string): Promise<Asked> => asked(`/api/share/devices/${encodeURIComponent(id)}/revoke`, {}); // prettier-ignore
