import { chmodSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { request as tlsRequest } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { TLSSocket } from 'node:tls';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { notingDevice } from '../../../../tests/store/sample-events.ts';
import { main } from '../../cli/command.ts';
import type { World } from '../../cli/world.ts';
import { InputError } from '../../../numbers/validity.ts';
import { startServer, type RunningServer } from '../serve.ts';
import { addressKey, ownAddresses, ownNames } from './addresses.ts';
import { covers, givenCertificate, namesIn, ownCertificate } from './certificate.ts';
import type { ShareSettings } from './share-door.ts';

let folder: string;
let server: RunningServer | undefined;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-door-'));
});
afterEach(async () => {
  await server?.close();
  server = undefined;
  rmSync(folder, { recursive: true });
});

async function serve(
  share: ShareSettings,
): Promise<{ readonly own: string; readonly port: string; readonly code: () => string }> {
  // prettier-ignore
  server = await startServer({ port: 0, dataDir: folder, webDir: join(folder, 'no-web'), share });
  const { sharing } = server.share ?? {};
  const port = /:(\d+)$/.exec(sharing?.addresses()[0] ?? '')?.[1] ?? '';
  return { own: server.url, port, code: () => sharing?.code.shown()?.code ?? '' };
}

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const NOW = Date.parse('2026-11-12T09:00:00Z');

describe('a server that is shared over plain HTTP', () => {
  it('ends the live line of a device at the moment its access is taken away, and tells another of what is noted', async () => {
    const { own, port, code } = await serve({ names: ['dairy.local'] });
    const at = `http://localhost:${port}`;
    const paired = async (name: string): Promise<string> => {
      const answer = await fetch(`${at}/api/pair`, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ code: code(), name, bearer: true }) }); // prettier-ignore
      return ((await answer.json()) as { token: string }).token;
    };
    const [phone, tablet] = [await paired('Phone'), await paired('Tablet')];
    const line = async (token: string) => (await fetch(`${at}/api/live`, { headers: { authorization: `Bearer ${token}` } })).body?.pipeThrough(new TextDecoderStream()).getReader(); // prettier-ignore
    const [phoneLine, tabletLine] = [await line(phone), await line(tablet)];
    expect((await phoneLine?.read())?.value).toContain(': here');
    expect((await tabletLine?.read())?.value).toContain(': here');

    const state = (await (await fetch(`${own}api/share`)).json()) as { sharing: { devices: { id: string; name: string }[] } }; // prettier-ignore
    const id = state.sharing.devices.find(({ name }) => name === 'Phone')?.id ?? '';
    const json = { 'content-type': 'application/json' };
    const revoked = await fetch(`${own}api/share/devices/${id}/revoke`, { method: 'POST', headers: json, body: '{}' });
    expect(revoked.status).toBe(200);
    const ended = await phoneLine?.read().then(({ done }) => done);
    expect(ended).toBe(true);
    expect((await fetch(`${at}/api/live`, { headers: { authorization: `Bearer ${phone}` } })).status).toBe(401);

    const event = notingDevice('desk')('foam');
    await fetch(`${own}api/events`, { method: 'POST', headers: json, body: JSON.stringify({ events: [event] }) });
    expect((await tabletLine?.read())?.value).toContain('"streamId":"batch:ash"');
    await tabletLine?.cancel();
  });

  it('says nothing secret in what it prints while devices pair, ask and fail', async () => {
    const said: string[] = [];
    const log = (...words: unknown[]): void => void said.push(words.map(String).join(' '));
    for (const level of ['log', 'info', 'warn', 'error'] as const) vi.spyOn(console, level).mockImplementation(log);
    const { port, code } = await serve({});
    const pair = (given: string) => fetch(`http://localhost:${port}/api/pair`, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ code: given, name: 'Phone', bearer: true }) }); // prettier-ignore
    const { token } = (await (await pair(code())).json()) as { token: string };
    await pair('00000000');
    await fetch(`http://localhost:${port}/api/streams/nonsense/events`, { headers: { authorization: `Bearer ${token}` } }); // prettier-ignore
    vi.restoreAllMocks();
    expect(said.join('\n')).not.toMatch(new RegExp(`${token.split('.')[1]}|${code()}`));
  });

  it('refuses an address that is not its own, and a name that is none', async () => {
    await expect(serve({ host: '203.0.113.200' })).rejects.toThrow(InputError);
    await expect(serve({ names: ['http://dairy.local'] })).rejects.toThrow(/name.*host name/);
    await expect(serve({ tls: { cert: join(folder, 'none.pem'), key: join(folder, 'none.pem') } })).rejects.toThrow(/cert/); // prettier-ignore
  });
});

describe('a certificate of this machine’s own', () => {
  it('answers TLS, is the one whose fingerprint was shown, and has a key that only its owner reads', async () => {
    const { port } = await serve({ tls: 'own', names: ['dairy.local'] });
    const answer = await new Promise<{ status: number; fingerprint: string; body: string }>((resolve, reject) => {
      const asked = tlsRequest({ port, path: '/api/me', servername: 'dairy.local', rejectUnauthorized: false, headers: { host: `dairy.local:${port}` } }, (response) => {
        const fingerprint = response.socket instanceof TLSSocket ? response.socket.getPeerCertificate().fingerprint256 : '';
        response.setEncoding('utf8').on('data', (body: string) => resolve({ status: response.statusCode ?? 0, fingerprint, body }));
      }); // prettier-ignore
      asked.on('error', reject).end();
    });
    expect(answer).toEqual({ status: 200, fingerprint: server?.share?.sharing.fingerprint, body: '{"role":null,"name":null}' }); // prettier-ignore
    expect(statSync(join(folder, 'tls', 'vatside-key.pem')).mode & 0o777).toBe(0o600);
    const cert = readFileSync(join(folder, 'tls', 'vatside-cert.pem'), 'utf8');
    expect(covers(cert, ['dairy.local', 'localhost', ...ownAddresses().map(({ address }) => address)])).toBe(true);
    expect(covers(cert, ['203.0.113.7'])).toBe(false);
    await expect(fetch(`http://localhost:${port}/api/me`)).rejects.toThrow();
  });

  it('is kept from start to start, and made anew when it ends soon, lacks an address, or its files are damaged', async () => {
    const tls = join(folder, 'tls');
    const at = (days: number, hosts = ['192.0.2.9']) => ownCertificate({ folder: tls, hosts, now: NOW + days * DAY });
    const first = await at(0);
    expect(first.endsAt).toBe(NOW + 397 * DAY);
    chmodSync(join(tls, 'vatside-key.pem'), 0o644);
    expect((await at(366)).fingerprint).toBe(first.fingerprint);
    expect(statSync(join(tls, 'vatside-key.pem')).mode & 0o777).toBe(0o600);
    const moved = await at(1, ['192.0.2.9', '2001:db8::7', 'dairy.local']);
    expect(moved.fingerprint).not.toBe(first.fingerprint);
    expect((await at(2)).fingerprint).toBe(moved.fingerprint);
    const renewed = await at(369);
    expect(renewed.fingerprint).not.toBe(moved.fingerprint);
    writeFileSync(join(tls, 'vatside-key.pem'), 'half a ke');
    expect((await at(370)).fingerprint).not.toBe(renewed.fingerprint);
  });

  it('vouches for this machine alone: it may sign no other certificate', async () => {
    const { cert } = await ownCertificate({ folder, hosts: ['192.0.2.9', 'dairy.local'], now: NOW });
    const { X509Certificate } = await import('node:crypto');
    const read = new X509Certificate(cert);
    expect(read.ca).toBe(false);
    expect(read.verify(read.publicKey)).toBe(true);
    expect(namesIn(cert)).toEqual(['dairy.local']);
  });

  it('is read from files where the maker brings one, and refused where key and certificate do not belong together', async () => {
    await ownCertificate({ folder: join(folder, 'a'), hosts: ['dairy.local'], now: NOW });
    await ownCertificate({ folder: join(folder, 'b'), hosts: ['dairy.local'], now: NOW });
    const file = (at: string, what: string) => join(folder, at, `vatside-${what}.pem`);
    expect(givenCertificate({ cert: file('a', 'cert'), key: file('a', 'key') }).fingerprint).toMatch(/^([0-9A-F]{2}:){31}/); // prettier-ignore
    expect(() => givenCertificate({ cert: file('a', 'cert'), key: file('b', 'key') })).toThrow(/belongs to it/);
    expect(() => givenCertificate({ cert: file('c', 'cert'), key: file('c', 'key') })).toThrow(/can be read/);
  });
});

describe('this machine on its networks', () => {
  const net = (address: string, family: 'IPv4' | 'IPv6', internal = false) => ({ address, family, internal, netmask: '', mac: '', cidr: null, scopeid: 0 }); // prettier-ignore
  it('names the addresses that other devices reach first', () => {
    const found = ownAddresses({
      lo: [net('127.0.0.1', 'IPv4', true)],
      docker0: [net('172.17.0.1', 'IPv4')],
      wlan0: [net('2001:db8::7', 'IPv6'), net('fe80::1', 'IPv6'), net('192.0.2.9', 'IPv4')],
      eth1: [net('169.254.3.4', 'IPv4')],
    });
    expect(found.map(({ address }) => address)).toEqual(['192.0.2.9', '2001:db8::7', '172.17.0.1']);
    expect(ownNames('Vat-PC')).toEqual(['vat-pc', 'vat-pc.local']);
    expect(ownNames('Käse')).toEqual([]);
  });

  it('counts tries by house, not by the many addresses that one machine may take', () => {
    expect(addressKey('192.0.2.9')).toBe('192.0.2.9');
    expect(addressKey('::ffff:192.0.2.9')).toBe('192.0.2.9');
    expect(addressKey('2001:db8:1:2::5')).toBe(addressKey('2001:db8:1:2:9:9:9:9'));
    expect(addressKey('2001:db8:1:2::5')).not.toBe(addressKey('2001:db8:1:3::5'));
    expect(addressKey('fe80::1%eth0')).toBe('fe80:0:0:0');
  });
});

describe('vatside serve --share', () => {
  it('prints addresses and the code, and stops when asked to', async () => {
    const said: string[] = [];
    const world: World = { argv: ['serve', '--share', '--port', '0', '--data', folder, '--pair-as', 'reader'], out: (text) => void said.push(text), err: (text) => void said.push(text), stdin: () => null, readFile: () => '', now: () => Date.now(), columns: undefined, stopped: () => Promise.resolve() }; // prettier-ignore
    expect(await main(world)).toBe(0);
    const all = said.join('');
    expect(all).toMatch(/Code \d{4} \d{4} pairs as a reader until \d\d:\d\d/);
    expect(all).toContain('This is plain HTTP');
    expect(all).not.toContain('█');
  });

  it('says which flag does not belong to the others', async () => {
    const told = async (...flags: string[]): Promise<string> => {
      const said: string[] = [];
      const world: World = { argv: ['serve', '--data', folder, ...flags], out: () => undefined, err: (text) => void said.push(text), stdin: () => null, readFile: () => '', now: () => 0, columns: undefined, stopped: () => Promise.resolve() }; // prettier-ignore
      expect(await main(world)).toBe(2);
      return said.join('');
    };
    expect(await told('--tls')).toContain('--tls is for a server that is shared: add --share.');
    expect(await told('--share', '--cert', 'a.pem')).toContain('--cert and --key go together');
    expect(await told('--share', '--pair-as', 'boss')).toContain('expected one of reader, helper, maker');
    expect(await told('--share', '--share-port', 'x')).toContain('--share-port x: expected a number');
  });
});
