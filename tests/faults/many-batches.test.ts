import 'fake-indexeddb/auto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createApp } from '../../src/doors/server/app.ts';
import { readShelf } from '../../src/doors/server/make-routes.ts';
import { sumsIn } from '../../src/doors/server/sums.ts';
import type { ServedStore } from '../../src/store/kept-store.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { dairy } from '../store/batch-list.ts';
import { Network, openDevice } from './devices.ts';

const nowMs = 1_790_000_000_000;
const MANY = 320;
const letters = (count: number): string => Array.from(String(count), (digit) => 'abcdefghij'[Number(digit)]).join('');

describe('a device that comes to a dairy with hundreds of batches', () => {
  const folder = mkdtempSync(join(tmpdir(), 'vatside-many-'));
  const { note, open } = dairy();
  let store: ServedStore;
  let network: Network;
  const asked: string[] = [];
  beforeEach(async () => {
    store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs });
    const app = createApp({ store, shelf: readShelf(join(folder, '..')), sums: sumsIn(join(process.cwd(), 'words')) });
    network = new Network((path, init) => {
      asked.push(path);
      return Promise.resolve(app.request(path, init));
    });
  });
  afterEach(async () => {
    await store.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('takes the newest and all that is no batch; goes on with what it has; fetches an older one when that is opened', async () => {
    await store.append([...Array.from({ length: MANY }, (_, day) => open(letters(day), day)), note('lot:r', 'lotReceived', { lotKind: 'rennet', name: 'Rennet' })]); // prettier-ignore
    const tablet = await openDevice(network);
    await tablet.synchroniseNow();
    const held = () => tablet.snapshot().streams;
    expect(held().size).toBe(301);
    expect([held().has('lot:r'), held().has(`batch:${letters(MANY - 1)}`), held().has('batch:a')]).toEqual([true, true, false]); // prettier-ignore

    expect(await tablet.fetchStream('batch:a')).toBe(true);
    expect(held().get('batch:a')).toHaveLength(1);
    expect(await tablet.fetchStream('batch:rowan')).toBe(false);
    // Old batches grow: the one that is here goes on, the other stays where it is; a new batch comes by itself.
    await store.append([note('batch:a', 'noted', { text: 'rind' }), note('batch:b', 'noted', { text: 'rind' }), open('rowan', MANY)]); // prettier-ignore
    asked.length = 0;
    await tablet.synchroniseNow();
    expect([held().get('batch:a')?.length, held().has('batch:b'), held().has('batch:rowan')]).toEqual([2, false, true]);
    // It asked what has grown, and for no list of everything.
    expect(asked[0]).toMatch(/^\/api\/streams\?since=\d+$/);
    await tablet.close();
  });
});
