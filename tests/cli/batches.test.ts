import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openNodeSqlite } from '../../src/store/node-sqlite.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { dairy } from '../store/batch-list.ts';
import { run } from './run.ts';

describe('vatside batches', () => {
  const data = mkdtempSync(join(tmpdir(), 'vatside-batches-'));
  const file = join(data, 'vatside.sqlite');
  const ask = (...words: string[]) => run({ line: ['batches', '--data', data, '--lang', 'en-GB', ...words] });
  beforeAll(async () => {
    const { note, open } = dairy();
    const store = await openSqliteStore({ file, nowMs: 0 });
    const bell = String.fromCharCode(7);
    await store.append([open('Ash', 1), open('Birch', 2, 'creme'), note('batch:ash', 'noted', { text: `slow${bell}` }), note('batch:ash', 'batchFinished', {})]); // prettier-ignore
    await store.close();
  });
  afterAll(() => rmSync(data, { recursive: true }));

  it('lists what is kept, the newest first, in columns for people and as JSON for programs', async () => {
    const { code, out, err } = await ask();
    expect([code, err]).toEqual([0, '']);
    const [first = '', second = ''] = out.trim().split('\n');
    expect(first.split('\t')).toEqual(['2026-09-23', 'LK-2', 'Birch', 'Crème fraîche', 'made ready', 'batch:birch']);
    expect(second.split('\t').slice(2)).toEqual(['Ash', 'Tomme', 'finished', 'batch:ash']);
    expect(JSON.parse((await ask('--json', '--make', 'creme')).out)).toMatchObject([{ batchId: 'batch:birch' }]);
  });

  it('finds by words, says where it goes on and when there is nothing', async () => {
    expect((await ask('CREME', 'lk-2')).out).toContain('Birch');
    const page = await ask('--limit', '1');
    expect(page.err).toContain('--before batch:birch');
    expect((await ask('--limit', '1', '--before', 'batch:birch')).out).toContain('Ash');
    expect(await ask('rowan')).toMatchObject({ code: 0, out: '', err: 'No batch is found.\n' });
    expect(await ask('--limit', 'all')).toMatchObject({ code: 2, out: '' });
  });

  it('makes the list anew from the events, also when all of it was lost', async () => {
    const before = (await ask()).out;
    const database = await openNodeSqlite(file);
    database.prepare('delete from batches').run([]);
    database.close();
    expect((await ask()).out).toBe('');
    expect((await ask('--relist')).out).toBe('The list was made anew from the events of 2 batches.\n');
    expect((await ask()).out).toBe(before);
  });
});
