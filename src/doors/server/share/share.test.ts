import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Hono } from 'hono';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { notingDevice } from '../../../../tests/store/sample-events.ts';
import type { Role } from '../../../record/may-note.ts';
import type { KeptStore } from '../../../store/kept-store.ts';
import { openSqliteStore } from '../../../store/sqlite.ts';
import { createApp } from '../app.ts';
import { CODE_LASTS_MS, PairingCode } from './pairing-code.ts';
import type { Sharing } from './sharing.ts';

let folder: string;
let store: KeptStore;
let nowAt = 1_790_000_000_000;
let code: PairingCode;
let app: Hono;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-share-'));
  store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: 0 });
  code = new PairingCode({ role: 'helper', now: () => nowAt });
  const sharing: Sharing = { access: store.access, code, addresses: () => ['http://192.0.2.9:4712'], names: () => ['192.0.2.9', 'dairy.local'], fingerprint: null }; // prettier-ignore
  app = createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map(), sharing, now: () => nowAt });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

const HOST = 'dairy.local:4712';
interface Asking {
  readonly token?: string;
  readonly body?: unknown;
  readonly headers?: Record<string, string>;
  readonly address?: string;
  readonly door?: 'own' | 'shared';
}

/** A request as it comes in by one of the two doors. */
function ask(path: string, { token, body, headers = {}, address = '192.0.2.50', door = 'shared' }: Asking = {}) {
  const host = door === 'own' ? '127.0.0.1:4711' : HOST;
  const init = {
    headers: {
      host,
      ...(token === undefined ? {} : { cookie: `vatside=${token}` }),
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      ...headers,
    },
    ...(body === undefined ? {} : { method: 'POST', body: JSON.stringify(body) }),
  };
  return Promise.resolve(app.request(`http://${host}${path}`, init, { door, address }));
}

const shownCode = (): string => code.shown()?.code ?? '';
/** Another code than the one that counts. */
const wrongCode = (): string => String((Number(shownCode()) + 1) % 100_000_000).padStart(8, '0');

/** Pairs a device as its browser does. */
async function pair(role: Role, logDevice = `log-${role}`): Promise<string> {
  code.renew(role);
  const answer = await ask('/api/pair', { body: { code: shownCode(), name: `The ${role}`, logDevice } });
  expect(answer.status).toBe(200);
  return /vatside=([^;]+);/.exec(answer.headers.get('set-cookie') ?? '')?.[1] ?? '';
}

describe('a device in the same network', () => {
  it('is let in nowhere before it is paired, whatever it asks for', async () => {
    const document = (await (await ask('/api/openapi.json', { door: 'own' })).json()) as { paths: Record<string, Record<string, { 'x-needs': string }>> }; // prettier-ignore
    let asked = 0;
    for (const [path, methods] of Object.entries(document.paths)) {
      for (const [method, { 'x-needs': needs }] of Object.entries(methods)) {
        if (needs === 'anyone') continue;
        asked += 1;
        const answer = await ask(path.replaceAll(/\{\w+\}/g, 'batch:ash'), method === 'post' ? { body: {} } : {});
        expect(answer.status, `${method} ${path}`).toBe(401);
        expect(answer.headers.get('vatside-role')).toBe('none');
      }
    }
    expect(asked).toBeGreaterThan(12);
    expect((await ask('/api/nothing-here')).status).toBe(401);
    expect(await (await ask('/api/me')).json()).toEqual({ role: null, name: null });
  });

  it('is paired by the code, gets its secret in a cookie that no page can read, and none in an address', async () => {
    const answer = await ask('/api/pair', { body: { code: ` ${shownCode().slice(0, 4)} ${shownCode().slice(4)}`, name: 'Phone by the sink', logDevice: 'phone' } }); // prettier-ignore
    expect(await answer.json()).toEqual({ role: 'helper', name: 'Phone by the sink' });
    const cookie = answer.headers.get('set-cookie') ?? '';
    expect(cookie).toMatch(/^vatside=[\w-]{16}\.[\w-]{43}; Max-Age=34560000; Path=\/; HttpOnly; SameSite=Strict$/);
    const token = /vatside=([^;]+);/.exec(cookie)?.[1] ?? '';
    const me = await ask('/api/me', { token });
    expect(await me.json()).toEqual({ role: 'helper', name: 'Phone by the sink' });
    expect(me.headers.get('vatside-role')).toBe('helper');
    expect((await ask(`/api/streams?token=${token}&vatside=${token}`)).status).toBe(401);
    const [kept] = await store.access.list();
    expect(JSON.stringify(kept)).not.toContain(token.split('.')[1]);
    expect(kept?.secretHash).toMatch(/^[0-9a-f]{64}$/);
    expect(await store.listStreams()).toEqual([]);
  });

  it('is given a bearer token where a script asks for one', async () => {
    const answer = await ask('/api/pair', { body: { code: shownCode(), name: 'Probe', bearer: true } });
    const { token } = (await answer.json()) as { token: string };
    expect(answer.headers.get('set-cookie')).toBeNull();
    expect((await ask('/api/streams', { headers: { authorization: `Bearer ${token}` } })).status).toBe(200);
    const altered = `${token.slice(0, -1)}${token.endsWith('A') ? 'B' : 'A'}`;
    for (const wrong of [altered, token.replace('.', ''), '', 'x'.repeat(5000), `${token}x`]) {
      expect((await ask('/api/streams', { headers: { authorization: `Bearer ${wrong}` } })).status).toBe(401);
    }
  });

  it('keeps its secret to TLS where the page was opened over TLS', async () => {
    const answer = await ask('/api/pair', { body: { code: shownCode(), name: 'Tablet' }, headers: { origin: `https://${HOST}` } }); // prettier-ignore
    expect(answer.headers.get('set-cookie')).toMatch(/^__Host-vatside=.*; Path=\/; HttpOnly; Secure; SameSite=Strict$/);
  });

  it('is not paired by a wrong code, nor by one whose ten minutes are over', async () => {
    const wrong = await ask('/api/pair', { body: { code: wrongCode(), name: 'Phone' } });
    expect(wrong.status).toBe(403);
    expect(JSON.stringify(await wrong.json())).not.toContain(wrongCode());
    const before = shownCode();
    nowAt += CODE_LASTS_MS;
    expect((await ask('/api/pair', { body: { code: before, name: 'Phone' } })).status).toBe(403);
    expect(shownCode()).not.toBe(before);
    expect((await ask('/api/pair', { body: { code: shownCode(), name: 'Phone' } })).status).toBe(200);
  });

  it('waits after six wrong codes in a minute, and the others do not', async () => {
    for (let at = 0; at < 6; at++) expect((await ask('/api/pair', { body: { code: wrongCode(), name: 'x' } })).status).toBe(403); // prettier-ignore
    const held = await ask('/api/pair', { body: { code: shownCode(), name: 'x' } });
    expect(held.status).toBe(429);
    expect(Number(held.headers.get('retry-after'))).toBeGreaterThan(50);
    expect((await ask('/api/pair', { body: { code: shownCode(), name: 'x' }, address: '192.0.2.51' })).status).toBe(200); // prettier-ignore
    nowAt += 61_000;
    expect((await ask('/api/pair', { body: { code: shownCode(), name: 'x' } })).status).toBe(200);
  });

  it('cannot guess on: after ten wrong codes none counts until a person asks for another', async () => {
    const right = shownCode();
    for (let at = 0; at < 10; at++) await ask('/api/pair', { body: { code: wrongCode(), name: 'x' }, address: `198.51.100.${at}` }); // prettier-ignore
    expect(code.shown()).toBeNull();
    const dead = await ask('/api/pair', { body: { code: right, name: 'x' }, address: '198.51.100.99' });
    expect(dead.status).toBe(403);
    nowAt += CODE_LASTS_MS * 3;
    expect(code.shown()).toBeNull();
    code.renew();
    expect((await ask('/api/pair', { body: { code: shownCode(), name: 'x' } })).status).toBe(200);
  });

  it('may not call itself something that would drive a terminal, and sends no large body before it is known', async () => {
    for (const name of ['\u001B[2J', 'a\nb', '', ' ', 'x'.repeat(81), 'back\u202Ewards']) {
      const answer = await ask('/api/pair', { body: { code: shownCode(), name } });
      expect(answer.status, JSON.stringify(name)).toBe(400);
    }
    expect((await ask('/api/pair', { body: { code: shownCode(), name: 'x', more: 'y'.repeat(5000) } })).status).toBe(413); // prettier-ignore
    expect(await store.access.list()).toEqual([]);
  });

  it('has one access: paired again in another role, the one before ends', async () => {
    const first = await pair('reader');
    code.renew('maker');
    const again = await ask('/api/pair', { token: first, body: { code: shownCode(), name: 'The same phone' } });
    expect(again.status).toBe(200);
    expect((await ask('/api/streams', { token: first })).status).toBe(401);
    expect((await store.access.list()).map(({ role }) => role)).toEqual(['maker']);
  });
});

describe('what each role may do', () => {
  const push = async (token: string, events: readonly unknown[]) =>
    ((await (await ask('/api/events', { token, body: { events } })).json()) as { answers: { state: string; reason?: string }[] }).answers; // prettier-ignore

  it('lets a helper note a reading and take it back, and gives the reason for what is a maker’s', async () => {
    const helper = await pair('helper', 'phone');
    const note = notingDevice('phone');
    const reading = { ...note('x'), kind: 'reading', body: { quantity: 'pH', value: 6.42, sample: 'milk' } };
    const step = { ...note('x'), kind: 'stepEnded', body: { stepId: 'set' } };
    const [taken, refused] = await push(helper, [reading, step]);
    expect(taken?.state).toBe('added');
    expect(refused).toMatchObject({ state: 'refused', reason: expect.stringMatching(/for a maker to note/) as string });
    const back = (replaces: string) => ({ ...note('x'), kind: 'retracted', body: { replaces } });
    expect((await push(helper, [back(reading.id)]))[0]?.state).toBe('added');
    const another = notingDevice('desk')('by the maker');
    await store.append([another]);
    const [others, forged] = await push(helper, [back(another.id), notingDevice('desk')('forged')]);
    expect(others?.reason).toMatch(/noted itself/);
    expect(forged?.reason).toMatch(/name of another/);
    expect((await store.readStream({ streamId: 'batch:ash', after: 0 })).map(({ event }) => event.id)).toHaveLength(3);
  });

  it('lets a reader see everything and refuses each of its notes by its id', async () => {
    const reader = await pair('reader');
    await store.append([notingDevice('desk')('foam')]);
    expect((await ask('/api/streams/batch:ash/events', { token: reader })).status).toBe(200);
    const [refused] = await push(reader, [notingDevice('log-reader')('mine')]);
    expect(refused).toMatchObject({ state: 'refused', reason: expect.stringMatching(/look only/) as string });
    const post = await ask('/api/batches/ash/readings', { token: reader, body: { quantity: 'pH', value: 6.4 } });
    expect(post.status).toBe(403);
    expect(((await post.json()) as { title: string }).title).toBe('A helper may do this; this device is paired as a reader'); // prettier-ignore
  });

  it('lets only a maker see the code and the devices, renew the one and take the others away', async () => {
    const helper = await pair('helper');
    nowAt += 1000;
    const maker = await pair('maker');
    for (const path of ['/api/share', '/api/share/code', '/api/share/devices/x/revoke'])
      expect((await ask(path, { token: helper, ...(path === '/api/share' ? {} : { body: {} }) })).status).toBe(403);
    const renewed = await ask('/api/share/code', { token: maker, body: { role: 'reader' } });
    const { sharing } = (await renewed.json()) as { sharing: { code: { code: string }; role: string; devices: { id: string; name: string; isAsking: boolean }[] } }; // prettier-ignore
    expect(sharing.role).toBe('reader');
    expect(sharing.code.code).toBe(shownCode());
    expect(sharing.devices.map(({ name, isAsking }) => [name, isAsking])).toEqual([['The helper', false], ['The maker', true]]); // prettier-ignore
    expect(JSON.stringify(sharing)).not.toMatch(/[0-9a-f]{64}/);
    const id = sharing.devices[0]?.id ?? '';
    expect((await ask(`/api/share/devices/${id}/revoke`, { token: maker, body: {} })).status).toBe(200);
    expect((await ask(`/api/share/devices/${id}/revoke`, { token: maker, body: {} })).status).toBe(404);
    expect((await ask('/api/streams', { token: helper })).status).toBe(401);
  });

  it('writes down when a device was last heard, a minute apart', async () => {
    const helper = await pair('helper');
    const seenAt = async () => (await store.access.list())[0]?.seenAt;
    const paired = await seenAt();
    nowAt += 59_000;
    await ask('/api/streams', { token: helper });
    expect(await seenAt()).toBe(paired);
    nowAt += 2_000;
    await ask('/api/streams', { token: helper });
    expect(await seenAt()).toBe(nowAt);
  });
});

describe('whoever sits at the sharing machine', () => {
  it('is the owner by its own door, but not a server that passes requests on', async () => {
    expect(await (await ask('/api/me', { door: 'own', address: '127.0.0.1' })).json()).toEqual({ role: 'maker', name: null }); // prettier-ignore
    for (const name of ['x-forwarded-for', 'forwarded', 'via', 'x-real-ip']) {
      const answer = await ask('/api/streams', { door: 'own', address: '127.0.0.1', headers: { [name]: '203.0.113.7' } }); // prettier-ignore
      expect(answer.status).toBe(403);
      expect(((await answer.json()) as { title: string }).title).toContain(`passed on by another server (${name})`);
    }
  });

  it('is not the owner by the shared door, whatever address it claims', async () => {
    for (const address of ['127.0.0.1', '::1', '::ffff:127.0.0.1'])
      expect((await ask('/api/streams', { address, headers: { 'x-forwarded-for': '127.0.0.1' } })).status).toBe(401);
    // A request of which no listener said by which door it came.
    expect((await app.request('http://127.0.0.1/api/streams')).status).toBe(401);
  });

  it('gives every page a strict policy, and over plain HTTP none that browsers only complain of', async () => {
    const [own, plain] = [await ask('/api/me', { door: 'own' }), await ask('/api/me')];
    for (const answer of [own, plain]) {
      expect(answer.headers.get('content-security-policy')).toMatch(/^default-src 'none'; script-src 'self'; style-src 'self'/); // prettier-ignore
      expect(answer.headers.get('referrer-policy')).toBe('no-referrer');
    }
    expect(own.headers.get('cross-origin-opener-policy')).toBe('same-origin');
    expect(plain.headers.get('cross-origin-opener-policy')).toBeNull();
  });

  it('answers under its own names only, to its own pages only', async () => {
    const maker = await pair('maker');
    const asked = async (headers: Record<string, string>) => (await ask('/api/streams', { token: maker, headers })).status; // prettier-ignore
    expect(await asked({})).toBe(200);
    expect(await asked({ host: 'evil.example:4712' })).toBe(403);
    expect(await asked({ origin: 'http://evil.example' })).toBe(403);
    expect(await asked({ origin: 'http://dairy.local:8080' })).toBe(403);
    expect(await asked({ 'sec-fetch-site': 'same-site' })).toBe(403);
    expect(await asked({ 'sec-fetch-site': 'same-origin', origin: `http://${HOST}` })).toBe(200);
    // A form on another page can send this without asking, and with the cookie of an old browser.
    const form = await app.request(`http://${HOST}/api/share/code`, { method: 'POST', headers: { host: HOST, cookie: `vatside=${maker}`, 'content-type': 'text/plain' }, body: '{"role":"maker"}' }, { door: 'shared', address: '192.0.2.50' }); // prettier-ignore
    expect(form.status).toBe(415);
  });
});
