import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Hono } from 'hono';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { dairy } from '../../../tests/store/batch-list.ts';
import type { ServedStore } from '../../store/kept-store.ts';
import { openSqliteStore } from '../../store/sqlite.ts';
import { createApp } from './app.ts';

describe('what a server tells of many batches', () => {
  let folder: string;
  let store: ServedStore;
  let app: Hono;
  let { note, open } = dairy();
  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), 'vatside-batches-'));
    ({ note, open } = dairy());
    store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: 0 });
    app = createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map() });
    await store.append([open('Ash', 1), open('Birch', 2), open('Cedar', 3), note('lot:r', 'lotReceived', { lotKind: 'rennet', name: 'Rennet' })]); // prettier-ignore
  });
  afterEach(async () => {
    await store.close();
    rmSync(folder, { recursive: true });
  });
  const ask = async (path: string): Promise<{ readonly status: number; readonly json: unknown }> => {
    const answer = await app.request(path);
    return { status: answer.status, json: await answer.json() };
  };

  it('gives them a page at a time, by words and by make', async () => {
    expect(await ask('/api/batches?limit=2')).toMatchObject({ status: 200, json: { batches: [{ name: 'Cedar', makeId: 'tomme', state: 'ready' }, { name: 'Birch' }] } }); // prettier-ignore
    expect((await ask('/api/batches?limit=2&before=batch:birch')).json).toMatchObject({ batches: [{ name: 'Ash' }] });
    expect((await ask('/api/batches?search=lk-1&make=tomme')).json).toMatchObject({ batches: [{ name: 'Ash', last: 1 }] }); // prettier-ignore
    expect((await ask('/api/batches?make=creme')).json).toEqual({ batches: [] });
  });

  it('refuses what is no page, no batch or no search', async () => {
    for (const query of ['limit=0', 'limit=201', 'limit=x', 'before=lot:r', 'before=%27', `search=${'x'.repeat(101)}`, 'make=']) {
      expect((await ask(`/api/batches?${query}`)).status, query).toBe(400);
    }
    for (const query of ['newest=0', 'newest=1001', 'since=-1', 'since=x']) expect((await ask(`/api/streams?${query}`)).status, query).toBe(400);
    for (const streams of ['batch:ash,what', `batch:ash${',batch:ash'.repeat(200)}`]) expect((await ask(`/api/live?streams=${streams}`)).status).toBe(400);
  }); // prettier-ignore

  it('tells a device that opens of the newest and of all that is no batch, and one that comes again of what has grown', async () => {
    const opened = (await ask('/api/streams?newest=1')).json as { streams: { streamId: string }[]; mark: number };
    expect(opened.streams.map(({ streamId }) => streamId).sort()).toEqual(['batch:cedar', 'lot:r']);
    await store.append([note('batch:ash', 'noted', { text: 'rind' })]);
    const both = (await ask(`/api/streams?newest=1&since=${opened.mark}`)).json as typeof opened;
    expect(both.streams).toContainEqual({ streamId: 'batch:ash', last: 2, isOld: true });
    expect(both.streams).toContainEqual({ streamId: 'batch:cedar', last: 1 });
    const grown = (await ask(`/api/streams?since=${opened.mark}`)).json as typeof opened;
    expect(grown.streams).toContainEqual({ streamId: 'batch:ash', last: 2 });
    expect((await ask('/api/streams')).json).toMatchObject({ streams: [{}, {}, {}, {}] });
  });

  it('tells a line that names its vats of these alone', async () => {
    const line = await app.request('/api/live?streams=batch:ash,lot:r');
    const reader = line.body!.pipeThrough(new TextDecoderStream()).getReader();
    await reader.read();
    const post = (event: unknown) => app.request('/api/events', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ events: [event] }) }); // prettier-ignore
    await post(note('batch:birch', 'noted', { text: 'not for this line' }));
    await post(note('batch:ash', 'noted', { text: 'foam' }));
    let said = '';
    while (!said.includes('"last":2')) said += (await reader.read()).value ?? '';
    expect(said).toContain('batch:ash');
    expect(said).not.toContain('batch:birch');
    await reader.cancel();
  });
});
