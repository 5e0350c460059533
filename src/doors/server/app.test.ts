import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Hono } from 'hono';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { notingDevice } from '../../../tests/store/sample-events.ts';
import { requireWithin } from '../../numbers/validity.ts';
import type { KeptStore } from '../../store/kept-store.ts';
import { openSqliteStore } from '../../store/sqlite.ts';
import { createApp } from './app.ts';
import { readShelf } from './make-routes.ts';
import type { Sum } from './sum-routes.ts';

const NOW = Date.UTC(2026, 10, 12, 9, 30);

const double: Sum = {
  name: 'double',
  answers: 'Twice as much.',
  input: z.strictObject({ massKg: z.number() }),
  result: z.object({ massKg: z.number() }),
  example: { massKg: 1 },
  answer(json) {
    const { massKg } = z.object({ massKg: z.number() }).parse(json);
    requireWithin({ massKg: { low: 0, high: 10, unit: 'kg', source: 'this test' } }, { massKg });
    return { name: 'double', result: { massKg: massKg * 2 }, cautions: [], assumptions: [], sources: [] };
  },
};

const pagesSchema = z.object({ pages: z.array(z.object({ streamId: z.string(), events: z.array(z.object({ n: z.int() })), last: z.int() })) }); // prettier-ignore
let folder: string;
let store: KeptStore;
let app: Hono;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-server-'));
  mkdirSync(join(folder, 'web/assets'), { recursive: true });
  mkdirSync(join(folder, 'makes'));
  writeFileSync(join(folder, 'web/index.html'), '<!doctype html><title>Vatside</title>');
  writeFileSync(join(folder, 'web/assets/app-1.js'), 'export {};');
  writeFileSync(join(folder, 'makes/broken.json'), '{"id": "x"');
  writeFileSync(join(folder, 'secret.txt'), 'not for pages');
  store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: 0 });
  app = createApp({
    now: () => NOW,
    store,
    shelf: readShelf(join(folder, 'makes')),
    sums: new Map([['double', double]]),
    webDir: join(folder, 'web'),
  });
});

afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

function post(path: string, body: unknown, headers: Record<string, string> = {}): Promise<Response> {
  const init = {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: JSON.stringify(body),
  };
  return Promise.resolve(app.request(path, init));
}

describe('events over HTTP', () => {
  it('takes events once however often they are sent, and gives them back from a place', async () => {
    const note = notingDevice('tablet');
    const events = [note('foam'), note('sour')];
    expect(await (await post('/api/events', { events })).json()).toEqual({
      answers: events.map(({ id }) => ({ id, state: 'added' })),
    });
    expect(await (await post('/api/events', { events })).json()).toEqual({
      answers: events.map(({ id }) => ({ id, state: 'known' })),
    });
    const page = await app.request('/api/streams/batch:ash/events?after=1');
    expect(await page.json()).toEqual({ events: [{ n: 2, event: events[1] }], last: 2 });
    const streams: unknown = await (await app.request('/api/streams')).json();
    expect(streams).toEqual({
      streams: [{ streamId: 'batch:ash', last: 2 }],
      now: NOW,
      mark: expect.any(Number) as number,
      storeId: await store.identity(),
    });
  });

  it('gives many streams on from their places in one answer, as far as there is room', async () => {
    const note = notingDevice('tablet');
    const all = (streamId: string) => Array.from({ length: 300 }, () => note('foam', streamId));
    await store.append([...all('batch:ash'), ...all('batch:birch'), ...all('batch:cedar')]);
    const ask = async (...places: readonly [string, number][]) =>
      pagesSchema.parse(await (await post('/api/pages', { places: places.map(([streamId, after]) => ({ streamId, after })) })).json()).pages.map(({ streamId, events, last }) => [streamId, events[0]?.n, events.at(-1)?.n, last]); // prettier-ignore
    const whole = ['batch:ash', 101, 300, 300];
    expect(await ask(['batch:ash', 100], ['batch:none', 0], ['batch:birch', 0], ['batch:cedar', 0])).toEqual([whole, ['batch:none', undefined, undefined, 0], ['batch:birch', 1, 300, 300]]); // prettier-ignore
    expect(await ask(['batch:birch', 0], ['batch:cedar', 0])).toEqual([['batch:birch', 1, 300, 300], ['batch:cedar', 1, 200, 300]]); // prettier-ignore
    expect((await post('/api/pages', { places: [] })).status).toBe(400);
  });

  it('refuses one altered or unreadable event by its id and takes the others', async () => {
    const note = notingDevice('tablet');
    const event = note('foam');
    await post('/api/events', { events: [event] });
    const altered = { ...event, body: { text: 'no foam' } };
    const late = note('late');
    const twin = { ...late, person: 'N' };
    const answer = await post('/api/events', { events: [altered, late, { id: 'odd' }, twin, 7] });
    const text = await answer.text();
    expect(text).toContain('exists with other content');
    expect(JSON.parse(text)).toMatchObject({
      answers: [
        { id: event.id, state: 'refused' },
        { id: late.id, state: 'added' },
        { id: 'odd', state: 'refused' },
        { id: late.id, state: 'refused' },
        { id: '', state: 'refused' },
      ],
    });
    expect(await store.readStream({ streamId: 'batch:ash', after: 0 })).toHaveLength(2);
  });

  it('refuses an event whose clock is a hundred years ahead, which would stop everybody’s, and takes one of decades', async () => {
    const event = notingDevice('tablet')('foam');
    const ahead = (years: number): string => `${String(NOW + years * 31_557_600_000).padStart(15, '0')}-00000`;
    const [decades, century] = [
      { ...event, clock: ahead(60) },
      { ...event, id: 'far', clock: ahead(101) },
    ];
    const answer: unknown = await (await post('/api/events', { events: [decades, century] })).json();
    expect(answer).toEqual({ answers: [{ id: event.id, state: 'added' }, { id: 'far', state: 'refused', reason: expect.stringContaining('more than a hundred years ahead') as string }] }); // prettier-ignore
  });

  it('tells a listener which stream has grown', async () => {
    const response = await app.request('/api/live');
    expect(response.headers.get('content-type')).toContain('text/event-stream');
    const reader = response.body!.pipeThrough(new TextDecoderStream()).getReader();
    expect((await reader.read()).value).toContain(': here');
    await post('/api/events', { events: [notingDevice('tablet')('foam')] });
    expect((await reader.read()).value).toBe('event: stream\ndata: {"streamId":"batch:ash","last":1}\n\n');
    await reader.cancel();
  });
});

describe('sums over HTTP', () => {
  it('answers, describes itself, and refuses with the field and the status the contract says', async () => {
    expect(await (await post('/api/calc/double', { massKg: 2 })).json()).toMatchObject({ result: { massKg: 4 } });
    expect(await (await app.request('/api/calc/double')).json()).toMatchObject({ example: { massKg: 1 }, input: { type: 'object' } }); // prettier-ignore
    const outside = await post('/api/calc/double', { massKg: 11 });
    expect(outside.status).toBe(422);
    expect(await outside.json()).toMatchObject({ errors: [{ code: 'outside-validity', field: 'massKg', value: 11 }] });
    expect((await post('/api/calc/none', {})).status).toBe(404);
  });
});

describe('the server', () => {
  it('says which make file is broken instead of hiding it', async () => {
    const answer: unknown = await (await app.request('/api/makes')).json();
    expect(answer).toMatchObject({ makes: [], broken: [{ file: 'broken.json', problems: [expect.stringContaining('JSON')] }] }); // prettier-ignore
  });

  it('describes every route it answers in OpenAPI', async () => {
    const description = z
      .looseObject({ openapi: z.string(), paths: z.record(z.string(), z.record(z.string(), z.unknown())) })
      .parse(await (await app.request('/api/openapi.json')).json());
    expect(description.openapi).toBe('3.1.0');
    expect(Object.keys(description.paths)).toEqual(
      expect.arrayContaining(['/api/health', '/api/streams/{streamId}/events', '/api/events', '/api/calc/double']),
    );
    const text = JSON.stringify(description);
    expect(text).not.toContain('"$schema"');
    const references = [...text.matchAll(/"\$ref":"#([^"]+)"/g)].map(([, pointer]) => pointer!.split('/').slice(1));
    expect(references.length).toBeGreaterThan(10);
    for (const path of references) {
      const target = path.reduce<unknown>(
        (node, key) => z.record(z.string(), z.unknown()).parse(node)[key],
        description,
      );
      expect(target, path.join('/')).toBeDefined();
    }
  });

  it('serves the app with a policy that lets no foreign or inline script run', async () => {
    const page = await app.request('/vat/batch:ash');
    expect(await page.text()).toContain('Vatside');
    const policy = page.headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self'");
    expect(policy).not.toContain('unsafe');
    expect((await app.request('/assets/app-1.js')).headers.get('cache-control')).toContain('immutable');
    expect((await app.request('/assets/gone.js')).status).toBe(404);
  });

  it('gives nothing from outside its folder', async () => {
    for (const path of ['/../secret.txt', '/%2e%2e/secret.txt', '/assets/..%2f..%2fsecret.txt', '//secret.txt']) {
      const answer = await app.request(`http://localhost${path}`);
      expect(await answer.text()).not.toContain('not for pages');
    }
  });

  it('answers its own pages only, under its own name only', async () => {
    const ask = (headers: Record<string, string>): Promise<Response> => Promise.resolve(app.request('/api/streams', { headers })); // prettier-ignore
    expect((await ask({ host: 'localhost:4711', origin: 'http://localhost:4711' })).status).toBe(200);
    expect((await ask({ host: '[::1]:4711' })).status).toBe(200);
    expect((await ask({ host: 'rebound.example:4711' })).status).toBe(403);
    expect((await ask({ host: 'localhost:4711', origin: 'http://elsewhere.example' })).status).toBe(403);
    expect((await ask({ host: 'localhost:4711', origin: 'null' })).status).toBe(403);
    expect((await ask({ host: 'localhost:4711', 'sec-fetch-site': 'cross-site' })).status).toBe(403);
  });

  it('takes JSON only where it says so, and no more than it can hold', async () => {
    const events = [notingDevice('tablet')('foam')];
    expect((await post('/api/events', { events }, { 'content-type': 'text/plain' })).status).toBe(415);
    expect((await post('/api/events', { events: Array.from({ length: 201 }, () => events[0]) })).status).toBe(400);
    expect((await post('/api/events', { events: ['x'.repeat(5 * 1024 * 1024)] })).status).toBe(413);
    const large = await post('/api/events', { events: [{ id: 'large', text: 'x'.repeat(300_000) }] });
    expect(await large.json()).toMatchObject({ answers: [{ id: 'large', state: 'refused' }] });
  });
});
