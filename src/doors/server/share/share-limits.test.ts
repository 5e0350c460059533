import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Hono } from 'hono';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { notingDevice } from '../../../../tests/store/sample-events.ts';
import type { Event } from '../../../record/event.ts';
import type { Role } from '../../../record/may-note.ts';
import type { KeptStore } from '../../../store/kept-store.ts';
import { openSqliteStore } from '../../../store/sqlite.ts';
import { askToPair } from '../../web/pairing/ask-server.ts';
import { createApp } from '../app.ts';
import { LiveLines, MOST_LINES } from './live-lines.ts';
import { MOST_DEVICES } from './pair-routes.ts';
import { CODE_LASTS_MS, MOST_LET_IN, MOST_WRONG_TRIES, PairingCode } from './pairing-code.ts';
import { newToken } from './token.ts';

const nowAt = 1_790_000_000_000;
let folder: string;
let store: KeptStore;
let app: Hono;
let code: PairingCode;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-limits-'));
  store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: 0 });
  code = new PairingCode({ role: 'helper', now: () => nowAt });
  const sharing = { access: store.access, code, addresses: () => [], names: () => ['192.0.2.9'], fingerprint: null };
  app = createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map(), sharing, now: () => nowAt });
});
afterEach(async () => {
  vi.unstubAllGlobals();
  await store.close();
  rmSync(folder, { recursive: true });
});

async function paired(role: Role, logDevice: string | null): Promise<string> {
  const { id, secretHash, token } = newToken();
  await store.access.add({ id, name: role, role, secretHash, pairedAt: nowAt, seenAt: nowAt, logDevice });
  return token;
}
const asking = (path: string, token: string, init: RequestInit = {}): Promise<Response> =>
  Promise.resolve(app.request(`http://192.0.2.9${path}`, { ...init, headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json', host: '192.0.2.9' } }, { door: 'shared', address: '192.0.2.50' })); // prettier-ignore
async function push(token: string, events: readonly Event[]): Promise<readonly { state: string; reason?: string }[]> {
  const answer = await asking('/api/events', token, { method: 'POST', body: JSON.stringify({ events }) });
  return ((await answer.json()) as { answers: { state: string; reason?: string }[] }).answers;
}

describe('a device that may not note everything', () => {
  it('is told of what the server has that it is there, also where it could not have noted it', async () => {
    const [mine, another] = [notingDevice('desk')('foam'), notingDevice('desk')('sour')];
    await store.append([mine]);
    for (const role of ['reader', 'helper'] as const) {
      const token = await paired(role, 'phone');
      const states = (await push(token, [mine, { ...mine, body: { text: 'altered' } }, { ...another, id: 'new' }])).map(({ state }) => state); // prettier-ignore
      expect(states).toEqual(['known', 'refused', 'refused']);
    }
    expect(await store.listStreams()).toEqual([{ streamId: 'batch:ash', last: 1 }]);
  });

  it('notes nothing in the name of another by saying no name of its own when it is paired', async () => {
    const [answer] = await push(await paired('helper', null), [notingDevice('desk')('forged')]);
    expect(answer).toMatchObject({ state: 'refused', reason: expect.stringMatching(/name of another/) as string });
  });
});

describe('what only makes work for the server', () => {
  it('is not read from somebody who is not paired beyond what pairing needs', async () => {
    let taken = 0;
    const body = new ReadableStream<Uint8Array>({
      pull(controller) {
        taken += 1024;
        controller.enqueue(new Uint8Array(1024).fill(32));
        if (taken > 1024 * 1024) controller.close();
      },
    });
    const init = { method: 'POST', body, duplex: 'half' } as RequestInit;
    expect((await asking('/api/events', 'nobody', init)).status).toBe(413);
    expect(taken).toBeLessThan(10 * 1024);
  });

  it('is not held back for a line that nobody takes from: of each stream one place waits, the last', async () => {
    const token = await paired('reader', null);
    const answer = await asking('/api/live', token);
    const note = notingDevice('desk');
    for (let round = 0; round < 40; round++) {
      const init = { method: 'POST', headers: { host: '127.0.0.1', 'content-type': 'application/json' }, body: JSON.stringify({ events: [note('look'), note('look', 'batch:birch')] }) }; // prettier-ignore
      expect((await app.request('http://127.0.0.1/api/events', init, { door: 'own', address: '127.0.0.1' })).status).toBe(200); // prettier-ignore
    }
    const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader();
    let text = '';
    while (!/"batch:birch","last":40/.test(text) || !/"batch:ash","last":40/.test(text)) text += (await reader.read()).value ?? ''; // prettier-ignore
    await reader.cancel();
    expect(text.match(/event: stream/g)?.length).toBeLessThan(6);
  });

  it('is not given out in one piece: a page of long events is a short one, and asking on gives them all', async () => {
    const note = notingDevice('desk');
    const long = Array.from({ length: 150 }, () => ({ ...note('x'), kind: 'of-another-year', body: { text: 'x'.repeat(50_000) } })); // prettier-ignore
    await store.append(long);
    const token = await paired('reader', null);
    const ids: string[] = [];
    for (let last = Infinity; ids.length < last;) {
      const text = await (await asking(`/api/streams/batch:ash/events?after=${ids.length}`, token)).text();
      expect(text.length).toBeLessThan(4_000_000);
      const page = JSON.parse(text) as { events: { event: Event }[]; last: number };
      ids.push(...page.events.map(({ event }) => event.id));
      last = page.last;
    }
    expect(ids).toEqual(long.map(({ id }) => id));
  });

  it('ends the oldest of too many lines of one device', () => {
    const lines = new LiveLines();
    const ended: number[] = [];
    for (let line = 0; line < MOST_LINES + 2; line++) lines.opened('phone', () => ended.push(line));
    lines.opened('tablet', () => ended.push(-1));
    expect(ended).toEqual([0, 1]);
    lines.end('phone');
    expect(ended).toHaveLength(MOST_LINES + 2);
  });
});

describe('somebody who guesses codes with patience', () => {
  it('has ten tries until a person asks for a new code, however many codes go by', () => {
    let at = nowAt;
    const code = new PairingCode({ role: 'maker', now: () => at, random: () => 12_345_678 });
    for (let tries = 1; tries < MOST_WRONG_TRIES; tries++) {
      expect(code.roleFor('00000000')).toBeNull();
      at += CODE_LASTS_MS;
      expect(code.shown()).not.toBeNull();
    }
    expect(code.roleFor('00000000')).toBeNull();
    expect([code.shown(), code.roleFor('12345678')]).toEqual([null, null]);
    code.renew();
    expect(code.roleFor('12345678')).toBe('maker');
  });
});

describe('a code that many have seen', () => {
  it('lets in a class of sixty, and is followed by another', () => {
    const digits = [11_111_111, 22_222_222];
    const code = new PairingCode({ role: 'reader', now: () => nowAt, random: () => digits.shift() ?? 0 });
    for (let pupil = 1; pupil <= MOST_LET_IN; pupil++) expect(code.roleFor('11111111')).toBe('reader');
    expect(code.roleFor('11111111')).toBeNull();
    expect(code.roleFor('22222222')).toBe('reader');
  });

  it('lets nobody in beside two thousand devices, and the page says what to do', async () => {
    const token = await paired('helper', 'phone');
    for (let count = (await store.access.list()).length; count < MOST_DEVICES; count++) await paired('reader', null);
    let asker = '';
    vi.stubGlobal('fetch', (path: string, init: RequestInit) => asking(path, asker, init));
    const pair = () => askToPair({ code: code.shown()?.code ?? '', name: 'Phone', logDevice: 'phone' });
    expect(await pair()).toEqual({ is: 'full' });
    // One of them may be paired anew.
    asker = token;
    expect(await pair()).toEqual({ is: 'paired', role: 'helper' });
    expect(await store.access.list()).toHaveLength(MOST_DEVICES);
  });
});

describe('the cookie of a device', () => {
  const by = async (name: string, fingerprint: string | null, origin?: string): Promise<number> => {
    const token = await paired('reader', null);
    const sharing = { access: store.access, code, addresses: () => [], names: () => ['192.0.2.9'], fingerprint };
    const asked = createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map(), sharing, now: () => nowAt });
    const headers = { host: '192.0.2.9', cookie: `${name}=${token}`, ...(origin === undefined ? {} : { origin }) };
    return (await asked.request('https://192.0.2.9/api/streams', { headers }, { door: 'shared', address: '192.0.2.50' })).status; // prettier-ignore
  };

  it('that plain HTTP could have set counts for nothing over TLS', async () => {
    expect(await by('__Host-vatside', 'AB:CD')).toBe(200);
    expect(await by('vatside', 'AB:CD')).toBe(401);
    expect(await by('vatside', null, 'https://192.0.2.9')).toBe(401);
    expect(await by('vatside', null)).toBe(200);
  });
});

describe('the worked example', () => {
  it('is not taken by a server, whose copies would leave it out', async () => {
    const [answer] = await push(await paired('maker', 'desk'), [notingDevice('desk')('foam', 'batch:demo-ash')]);
    expect(answer).toMatchObject({ state: 'refused', reason: expect.stringMatching(/stays on the device/) as string });
  });
});
