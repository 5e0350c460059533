import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Hono } from 'hono';
import { notingDevice } from '../../../../tests/store/sample-events.ts';
import type { Event } from '../../../record/event.ts';
import type { Role } from '../../../record/may-note.ts';
import type { KeptStore } from '../../../store/kept-store.ts';
import { openSqliteStore } from '../../../store/sqlite.ts';
import { askToPair } from '../../web/pairing/ask-server.ts';
import { createApp } from '../app.ts';
import { PairingCode } from './pairing-code.ts';

let folder: string;
let store: KeptStore;
let code: PairingCode;
let app: Hono;
const HOST = '192.0.2.9';

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-held-'));
  store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: 0 });
  code = new PairingCode({ role: 'helper', now: () => 1_790_000_000_000 });
  const sharing = { access: store.access, code, addresses: () => [], names: () => [HOST], fingerprint: null };
  app = createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map(), sharing });
});
afterEach(async () => {
  vi.unstubAllGlobals();
  await store.close();
  rmSync(folder, { recursive: true });
});

async function asked(
  path: string,
  body: object,
  token = '',
): Promise<{ status: number; json: Record<string, unknown> }> {
  const headers = { host: HOST, 'content-type': 'application/json', authorization: `Bearer ${token}` };
  const init = { method: 'POST', headers, body: JSON.stringify(body) };
  const answer = await app.request(`http://${HOST}${path}`, init, { door: 'shared', address: '192.0.2.50' });
  return { status: answer.status, json: (await answer.json()) as Record<string, unknown> };
}
async function pair(
  role: Role,
  logDevice: string,
  token = '',
): Promise<{ status: number; token: string; title: string }> {
  const { status, json } = await asked(
    '/api/pair',
    { code: code.renew(role).code, name: 'Phone', logDevice, bearer: true },
    token,
  );
  return { status, token: String(json['token']), title: String(json['title']) };
}
const reading = (event: Event): Event => ({ ...event, kind: 'reading', body: { quantity: 'pH', value: 6.42, sample: 'milk' } }); // prettier-ignore

describe('the name that a device’s events go by', () => {
  it('is not given to a helper or reader while a maker’s device holds it, so that nobody takes its readings back', async () => {
    const maker = await pair('maker', 'tablet');
    const note = notingDevice('tablet');
    await store.append([reading(note('x'))]);
    for (const role of ['helper', 'reader'] as const) {
      const { status, title } = await pair(role, 'tablet');
      expect([role, status, title]).toEqual([role, 409, expect.stringMatching(/^The log knows tablet as a device that may do more/)]); // prettier-ignore
    }
    // Nor to a helper who shows a token of its own.
    const helper = await pair('helper', 'phone');
    expect((await pair('helper', 'tablet', helper.token)).status).toBe(409);
    expect(await store.access.list()).toHaveLength(2);
    // The tablet itself may be made a helper’s: it shows its token.
    expect((await pair('helper', 'tablet', maker.token)).status).toBe(200);
  });

  it('is not given to a helper where it has begun a make, as the sharing machine’s own browser has', async () => {
    const note = notingDevice('desk');
    await store.append([{ ...note('x'), kind: 'batchOpened', body: { make: { id: 'ash', name: 'Ash' }, answers: { milk: { volumeL: 40 } }, name: 'Ash', lotCode: 'A1', zeroAt: 1_790_000_000_000 } }]); // prettier-ignore
    expect((await store.batches.list({ limit: 10 })).length).toBe(1);
    expect((await pair('helper', 'desk')).status).toBe(409);
    expect((await pair('maker', 'desk')).status).toBe(200);
    expect((await pair('helper', 'phone')).status).toBe(200);
  });

  it('is taken from whoever held it in a lesser role once its maker pairs', async () => {
    const helper = await pair('helper', 'tablet');
    const maker = await pair('maker', 'tablet');
    expect((await asked('/api/events', { events: [] }, helper.token)).status).toBe(401);
    expect((await asked('/api/events', { events: [] }, maker.token)).status).toBe(200);
  });

  it('is told to be held, in words of its own, by the page that asks for it', async () => {
    await pair('maker', 'tablet');
    vi.stubGlobal('fetch', (path: string, init: RequestInit) =>
      app.request(`http://${HOST}${path}`, { ...init, headers: { 'content-type': 'application/json', host: HOST } }, { door: 'shared', address: '192.0.2.50' }),
    ); // prettier-ignore
    const { code: shown } = code.renew('helper');
    expect(await askToPair({ code: shown, name: 'Phone', logDevice: 'tablet' })).toEqual({ is: 'held' });
    expect(await askToPair({ code: shown, name: 'Phone', logDevice: 'phone' })).toEqual({ is: 'paired', role: 'helper' }); // prettier-ignore
  });
});
