import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startServer, type RunningServer } from '../../src/doors/server/serve.ts';
import { wrongWith } from './attack/wrong-answer.ts';

/** A server on its port, asked with bytes that no client would send: a browser tidies an address before it asks. */

let folder: string;
let server: RunningServer;
let port: number;
const SECRET = 'the cellar key';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-doors-'));
  const webDir = join(folder, 'web');
  mkdirSync(join(webDir, 'assets'), { recursive: true });
  writeFileSync(join(webDir, 'index.html'), '<!doctype html>the app');
  writeFileSync(join(webDir, 'assets', 'a.js'), 'export {};');
  writeFileSync(join(webDir, '.env'), SECRET);
  writeFileSync(join(folder, 'secret.txt'), SECRET);
  server = await startServer({ port: 0, dataDir: join(folder, 'data'), webDir });
  port = Number(new URL(server.url).port);
});
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});

interface Told {
  readonly status: number;
  readonly headers: Headers;
  readonly text: string;
  readonly ms: number;
}

/** One request as it stands, and everything that comes back before the line is closed. */
async function told(lines: readonly string[], body = ''): Promise<Told> {
  const from = performance.now();
  const raw = await new Promise<string>((resolve, reject) => {
    const line = connect(port, '127.0.0.1', () => line.write(`${[...lines, 'connection: close', ...(body === '' ? [] : [`content-length: ${Buffer.byteLength(body)}`])].join('\r\n')}\r\n\r\n${body}`)); // prettier-ignore
    let all = '';
    line.setEncoding('utf8').on('data', (part: string) => (all += part));
    line.on('end', () => resolve(all)).on('error', reject);
    line.setTimeout(5000, () => line.destroy(new Error('no answer within five seconds')));
  });
  const [head = '', ...rest] = raw.split('\r\n\r\n');
  const [first = '', ...named] = head.split('\r\n');
  const headers = new Headers(named.map((one): [string, string] => [one.slice(0, one.indexOf(':')), one.slice(one.indexOf(':') + 1).trim()])); // prettier-ignore
  return { status: Number(first.split(' ')[1]), headers, text: rest.join('\r\n\r\n'), ms: performance.now() - from };
}

const HOST = 'host: localhost';
const JSON_TYPE = 'content-type: application/json';
const health = async (): Promise<number> => (await told(['GET /api/health HTTP/1.1', HOST])).status;

describe('the owner’s door', () => {
  it('takes a server for nobody that passes requests on and does not say so, in the HTTP that only such a one speaks', async () => {
    const { status, text } = await told(['GET /api/streams HTTP/1.0', HOST]);
    expect([status, text]).toEqual([403, expect.stringContaining('passed on by another server (HTTP/1.0)')]);
    expect((await told(['GET /api/streams HTTP/1.1', HOST])).status).toBe(200);
  });
});

describe('a path out of the folder', () => {
  const ways = ['../secret.txt', '..%2fsecret.txt', '%2e%2e/secret.txt', '%2e%2e%2fsecret.txt', '..%5csecret.txt', '..\\secret.txt', '%252e%252e%252fsecret.txt', 'assets/..%2f..%2fsecret.txt', 'assets/%2e%2e/%2e%2e/secret.txt', '.env', '%2eenv', 'assets/../.env', 'secret.txt%00.js', '/secret.txt', '%c0%ae%c0%ae/secret.txt', '....//secret.txt', 'data/vatside.sqlite', '..%2fdata%2fvatside.sqlite']; // prettier-ignore
  it.each([...ways, `..${'/..'.repeat(9)}/etc/passwd`])('leads nowhere: %s', async (way) => {
    for (const from of ['/', '/api/', '/api/calc/', '/assets/']) {
      const { status, text } = await told([`GET ${from}${way} HTTP/1.1`, HOST]);
      expect(status).toBeLessThan(500);
      expect(text).not.toMatch(/the cellar key|root:|SQLite format/);
    }
    expect(await health()).toBe(200);
  });

  it('writes nothing beside the log', () => {
    expect(readdirSync(folder).sort()).toEqual(['data', 'secret.txt', 'web']);
    expect(readdirSync(join(folder, 'data')).filter((name) => !/^vatside\.sqlite(-wal|-shm)?$/.test(name))).toEqual([]);
  });
});

describe('every answer', () => {
  const asked = ['GET /', 'GET /assets/a.js', 'GET /assets/missing.js', 'GET /plan', 'POST /', 'GET /api/health', 'GET /api/nothing', 'PUT /api/events', 'GET /api/events', 'GET /api/streams/%ff/events', 'GET /.env'] as const; // prettier-ignore
  it.each(asked)('to %s has the strict headers, and does not say what it was made with', async (line) => {
    const { status, headers, text } = await told([`${line} HTTP/1.1`, HOST, JSON_TYPE]);
    // Pages are answered in words; what is refused of the API is a problem document.
    const wrong = wrongWith({ answer: new Response(null, { status, headers }), text, method: 'HEAD' });
    expect(wrong).toEqual([]);
    expect(headers.get('content-security-policy')).not.toMatch(/unsafe|\*|https?:/);
  });

  it('to a method that nothing answers says which are', async () => {
    for (const method of ['PUT', 'DELETE', 'PATCH', 'TRACE', 'GET']) {
      const { status, headers } = await told([`${method} /api/events HTTP/1.1`, HOST, JSON_TYPE]);
      expect([method, status, headers.get('allow')]).toEqual([method, 405, 'POST, OPTIONS']);
    }
    for (const [path, allow] of [
      ['/api/events', 'POST, OPTIONS'],
      ['/api/health', 'GET, HEAD, OPTIONS'],
      ['/plan', 'GET, HEAD, OPTIONS'],
    ] as const) {
      // prettier-ignore
      const { status, headers } = await told([`OPTIONS ${path} HTTP/1.1`, HOST]);
      expect([path, status, headers.get('allow')]).toEqual([path, 204, allow]);
    }
  });

  it('to HEAD ends, even where the line that is asked about would not', async () => {
    for (const path of ['/', '/api/health', '/api/live']) {
      const { status, text, ms } = await told([`HEAD ${path} HTTP/1.1`, HOST]);
      expect([path, status, text]).toEqual([path, 200, '']);
      expect(ms).toBeLessThan(2000);
    }
  });

  it('to a name in the address that means nothing says so, and to one that is said twice', async () => {
    for (const [query, field] of [
      ['afer=5', 'afer'],
      ['after=1&after=2', 'after'],
      ['__proto__[x]=1', '__proto__[x]'],
      ['after=0x10', 'after'],
      ['after=', 'after'],
    ] as const) {
      // prettier-ignore
      const { status, text } = await told([`GET /api/streams/batch:ash/events?${query} HTTP/1.1`, HOST]);
      expect([status, JSON.parse(text)]).toMatchObject([400, { errors: [{ field }] }]);
    }
  });
});

describe('a body', () => {
  const push = (body: string, ...more: string[]): Promise<Told> => told(['POST /api/events HTTP/1.1', HOST, ...(more.length > 0 ? more : [JSON_TYPE])], body); // prettier-ignore

  it.each([
    ['lists', '['.repeat(100_000) + ']'.repeat(100_000)],
    ['lists without an end', '['.repeat(100_000)],
    ['objects', '{"a":'.repeat(100_000) + '1' + '}'.repeat(100_000)],
  ])('of 100,000 %s in each other is refused in less than a second', async (_, deep) => {
    // prettier-ignore
    for (const body of [deep, `{"events":[${deep}]}`]) {
      const { status, ms } = await push(body);
      expect(status).toBe(400);
      expect(ms).toBeLessThan(1000);
    }
    expect(await health()).toBe(200);
  });

  it('of five megabytes is refused for its size, said or found out', async () => {
    const large = JSON.stringify({ events: ['x'.repeat(5 * 1024 * 1024)] });
    expect((await push(large)).status).toBe(413);
    const parts = `${(64 * 1024).toString(16)}\r\n${' '.repeat(64 * 1024)}\r\n`.repeat(80);
    const { status } = await told(['POST /api/events HTTP/1.1', HOST, JSON_TYPE, 'transfer-encoding: chunked', '', `${parts}0`]); // prettier-ignore
    expect(status).toBe(413);
  });

  it('that a form could have sent is no JSON, whatever is in it', async () => {
    for (const type of [
      'text/plain',
      'application/x-www-form-urlencoded',
      'multipart/form-data; boundary=x',
      'application/jsonp',
      '',
    ]) {
      // prettier-ignore
      expect((await push('{"events":[]}', `content-type: ${type}`)).status).toBe(415);
    }
    expect((await push('{"events":[]}', 'content-type: Application/JSON; charset=utf-8')).status).toBe(200);
  });
});

describe('a page elsewhere', () => {
  const push = (...more: string[]): Promise<Told> => told(['POST /api/events HTTP/1.1', JSON_TYPE, ...more], '{"events":[]}'); // prettier-ignore

  it('is refused by what the browser says of it', async () => {
    for (const line of [
      'origin: null',
      'origin: http://larkenshaw.invalid',
      'origin: http://localhost.larkenshaw.invalid',
      'sec-fetch-site: cross-site',
      'sec-fetch-site: same-site',
    ]) {
      // prettier-ignore
      expect([line, (await push(HOST, line)).status]).toEqual([line, 403]);
    }
  });

  it('that has its name pointed at this machine is refused by the name', async () => {
    for (const host of [
      'larkenshaw.invalid',
      'localhost.larkenshaw.invalid',
      'larkenshaw.invalid:4711',
      '127.0.0.1.larkenshaw.invalid',
      '0.0.0.0',
      '2130706433',
    ]) {
      // prettier-ignore
      expect([host, (await push(`host: ${host}`)).status]).toEqual([host, 403]);
    }
    for (const host of ['localhost', `127.0.0.1:${port}`, '[::1]:1']) expect([host, (await push(`host: ${host}`)).status]).toEqual([host, 200]); // prettier-ignore
  });
});
