import 'fake-indexeddb/auto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createApp } from '../../src/doors/server/app.ts';
import { PairingCode } from '../../src/doors/server/share/pairing-code.ts';
import type { EventLog } from '../../src/doors/web/log/event-log.ts';
import type { Role } from '../../src/record/may-note.ts';
import type { KeptStore } from '../../src/store/kept-store.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { Network, openDevice, until } from './devices.ts';

/** The log of a device that asks a shared server: refused, paired, taken away; nothing it noted is lost on the way. */
let folder: string;
let store: KeptStore;
let code: PairingCode;
let network: Network;
let log: EventLog;
let token = '';

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-shared-'));
  store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: 0 });
  code = new PairingCode({ role: 'helper', now: Date.now });
  const sharing = { access: store.access, code, addresses: () => [], names: () => [], fingerprint: null };
  const app = createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map(), sharing });
  network = new Network((path, init) => {
    const headers = new Headers(init?.headers);
    headers.set('host', 'localhost:4712');
    if (token !== '') headers.set('cookie', `vatside=${token}`);
    return Promise.resolve(app.request(path, { ...init, headers }, { door: 'shared', address: '192.0.2.7' }));
  });
  token = '';
  log = await openDevice(network);
});
afterEach(async () => {
  await log.close();
  await store.close();
  rmSync(folder, { recursive: true });
});

async function pair(role: Role): Promise<void> {
  const { deviceId } = log.snapshot();
  const body = JSON.stringify({ code: code.renew(role).code, name: 'Phone', logDevice: deviceId });
  const answer = await network.ask('/api/pair', { method: 'POST', headers: { 'content-type': 'application/json' }, body }); // prettier-ignore
  token = /vatside=([^;]+);/.exec(answer.headers.get('set-cookie') ?? '')?.[1] ?? '';
}

const noted = (text: string) => log.record({ kind: 'noted', body: { text }, streamId: 'batch:ash' });
const ended = () => log.record({ kind: 'stepEnded', body: { stepId: 'set' }, streamId: 'batch:ash' });
const onServer = async (): Promise<string[]> => (await store.readAll({ after: 0 })).map(({ event }) => event.kind);

describe('two servers on one store', () => {
  it('both end the live line and refuse the requests of a device whose access one of them took away', async () => {
    const sharing = { access: store.access, code, addresses: () => [], names: () => [], fingerprint: null };
    const other = createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map(), sharing, heartbeatMs: 20 });
    const ask = (path: string) => other.request(path, { headers: { host: 'localhost:4712', cookie: `vatside=${token}` } }, { door: 'shared', address: '192.0.2.7' }); // prettier-ignore
    await pair('reader');
    const line = (await ask('/api/live')).body!.getReader();
    expect((await line.read()).done).toBe(false);
    const [phone] = await store.access.list();
    await store.access.remove(phone?.id ?? '');
    for (let part = await line.read(); !part.done; part = await line.read());
    expect((await ask('/api/streams')).status).toBe(401);
  });
});

describe('the log of a device beside a shared server', () => {
  it('waits with what it noted until it is paired, and says meanwhile that it is not', async () => {
    await noted('foam');
    await log.synchroniseNow();
    expect(log.snapshot()).toMatchObject({ access: 'none', waiting: 1, problems: [] });
    expect(log.savedWhere()).toBe('here');
    await pair('helper');
    await log.synchroniseNow();
    expect(log.snapshot()).toMatchObject({ access: 'helper', waiting: 0 });
    expect(await onServer()).toEqual(['noted']);
  });

  it('sets aside what it noted before it had a role that may not, with the reason, and sends it again once it may', async () => {
    await noted('foam');
    await ended();
    await pair('helper');
    await log.synchroniseNow();
    await until('the step is set aside', () => log.snapshot().setAside.length === 1);
    expect(log.snapshot().setAside[0]?.reason).toMatch(/for a maker to note/);
    expect(log.snapshot().streams.get('batch:ash')).toHaveLength(2);
    expect(log.savedWhere()).toBe('here');
    await log.sendAgain();
    await until('it is refused once more', () => log.snapshot().waiting === 0 && log.snapshot().setAside.length === 1);
    await pair('maker');
    await log.sendAgain();
    await until('the server has it', () => log.snapshot().waiting === 0 && log.snapshot().setAside.length === 0);
    expect(await onServer()).toEqual(['noted', 'stepEnded']);
    expect(log.savedWhere()).toBe('here and server');
  });

  it('keeps what it notes after its access was taken away, and sends all of it after it was let in again', async () => {
    await pair('helper');
    await noted('foam');
    await log.synchroniseNow();
    const [phone] = await store.access.list();
    await store.access.remove(phone?.id ?? '');
    await noted('more foam');
    await log.synchroniseNow();
    expect(log.snapshot()).toMatchObject({ access: 'none', waiting: 1, setAside: [] });
    await pair('helper');
    await log.synchroniseNow();
    expect(await onServer()).toEqual(['noted', 'noted']);
  });
});
