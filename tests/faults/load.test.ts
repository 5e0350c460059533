import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ALL_KINDS } from '../../src/record/keeping-events.ts';
import { canonicalText } from '../../src/record/merge.ts';
import { parseEvent } from '../../src/record/parse-event.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { batchRows, EVENTS_A_BATCH, growStore } from './load/grown-store.ts';
import { growthPlot } from './load/plot.ts';
import { measureStore } from './load/store-measures.ts';
import { holdVats } from './load/vats.ts';
import { serveOn } from './two-servers.ts';

const BATCHES = 1000;
const SEED = 7;

describe('a server with much to do', () => {
  let folder: string;
  beforeEach(() => void (folder = mkdtempSync(join(tmpdir(), 'vatside-load-'))));
  afterEach(() => rmSync(folder, { recursive: true }));

  it('brings every reading of twenty vats to each of their hundred devices, and to two apps that follow all of them, once', async () => {
    const server = await serveOn({ dataDir: folder });
    const found = await holdVats({ url: server.url.replace(/\/$/, ''), vats: 20, devicesAVat: 5, everyMs: 1000, lastsMs: 3000, apps: 2 }); // prettier-ignore
    expect(found).toMatchObject({ devices: 100, acknowledged: 300, lost: 0, duplicated: 0, wrong: [] });
    expect([found.acknowledgedMs.count, found.seenMs.count, found.everywhereMs.count]).toEqual([300, 1200, 600]);
    await server.close();
  });

  it('opens, lists, compares and finds what it should in a store of a thousand batches', async () => {
    const file = join(folder, 'vatside.sqlite');
    await (await openSqliteStore({ file, nowMs: 0 })).close();
    await growStore({ file, from: 0, to: BATCHES, seed: SEED });
    const store = await openSqliteStore({ file, nowMs: 0 });
    expect(await store.batches.relist()).toBe(BATCHES);
    await store.close();
    const server = await serveOn({ dataDir: folder });
    let turn = 0;
    const chance = (): number => (turn = (turn + 0.381966) % 1);
    const measured = await measureStore({ url: server.url.replace(/\/$/, ''), rounds: 4, batches: BATCHES, chance });
    expect(measured.wrong).toEqual([]);
    expect([measured.times.open.count, measured.times.search.count]).toEqual([4, 16]);
    await server.close();
    const one = { ...measured, batches: BATCHES, events: 1, fileMb: 1, writingS: 1, relistingS: 1, servedMs: 1, highestMb: 1 }; // prettier-ignore
    expect(growthPlot([one, { ...one, batches: 10_000 }])).toMatch(/^<svg [\s\S]+1,000[\s\S]+10,000[\s\S]+<\/svg>\n$/);
  });

  it('is tried on batches that are written as an append would write them, fifty events each, the same for the same seed', () => {
    for (const nth of [0, 1, 77, 4242]) {
      const rows = batchRows({ nth, seed: SEED });
      expect(rows).toHaveLength(EVENTS_A_BATCH);
      for (const { text } of rows) expect(canonicalText(parseEvent(JSON.parse(text), ALL_KINDS))).toBe(text);
      expect(new Set(rows.map(({ id }) => id)).size).toBe(EVENTS_A_BATCH);
      expect(batchRows({ nth, seed: SEED })).toEqual(rows);
    }
    expect(batchRows({ nth: 1, seed: SEED })).not.toEqual(batchRows({ nth: 1, seed: SEED + 1 }));
  });
});
