import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Hono } from 'hono';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { keptStream } from '../../../tests/kept-streams.ts';
import type { ServedStore } from '../../store/kept-store.ts';
import { openSqliteStore } from '../../store/sqlite.ts';
import { createApp } from './app.ts';
import { readShelf } from './make-routes.ts';

let folder: string;
let store: ServedStore;
let app: Hono;
const care = { stays: [{ every: { turn: 2 } }], tasteDays: [], source: 'common practice (no source)' };
const wheel = keptStream('piece:one', [['2026-03-01', 'pieceMade', { name: 'Wheel 1', cheese: 'c', madeOn: '2026-03-01', rind: 'bare', care }]]); // prettier-ignore

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-care-'));
  store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: 0 });
  app = createApp({ store, shelf: readShelf('makes'), sums: new Map(), now: () => Date.parse('2026-03-02T12:00:00Z') });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

const post = (events: readonly unknown[]): Promise<Response> =>
  Promise.resolve(app.request('/api/events', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ events }) })); // prettier-ignore

describe('the calendar that a phone subscribes to', () => {
  it('tells what is to be done with the pieces that the server has, as a calendar', async () => {
    expect(await (await post(wheel)).json()).toMatchObject({ answers: [{ state: 'added' }] });
    const answer = await app.request('/api/ageing.ics');
    expect(answer.headers.get('content-type')).toBe('text/calendar; charset=utf-8');
    const text = await answer.text();
    expect(text).toMatch(/^BEGIN:VCALENDAR\r\n/);
    expect(text).toContain('DTSTART;VALUE=DATE:20260303\r\nSUMMARY:Ageing: turn 1');
  });

  it('is for this device alone, and refuses a language it does not speak', async () => {
    expect((await app.request('/api/ageing.ics', { headers: { host: 'cheese.example' } })).status).toBe(403);
    expect((await app.request('/api/ageing.ics?language=xx')).status).toBe(400);
  });

  it('takes no piece whose body is not what its kind says', async () => {
    const [made] = wheel;
    const wrong = { ...made, id: 'other', body: { ...made?.body, rind: 'glass' } };
    expect(await (await post([wrong])).json()).toMatchObject({ answers: [{ state: 'refused' }] });
  });
});
