import { statSync, statfsSync } from 'node:fs';
import { join } from 'node:path';
import { openSqliteStore } from '../../../src/store/sqlite.ts';
import { serve } from '../served.ts';
import { EVENTS_A_BATCH, growStore } from './grown-store.ts';
import { processCost } from './process-cost.ts';
import { measureStore, type Measured } from './store-measures.ts';
import { tenths } from './percentile.ts';

/** A batch with its make takes so much of the file; with as much again for the journal while it grows. */
const BYTES_A_BATCH = 150_000;

/** One size of a store, and what it took to ask of it. */
export interface GrownFound extends Measured {
  readonly batches: number;
  readonly events: number;
  readonly fileMb: number;
  /** Writing the events without waiting for the disk; making the list of batches from them. Seconds. */
  readonly writingS: number;
  readonly relistingS: number;
  /** From the start of the process until it answers, milliseconds. */
  readonly servedMs: number;
  readonly highestMb: number | null;
}

/** Grows one store through several sizes and measures a real server on each. Needs the built command and room on the disk. */
export async function measureGrowth(input: {
  readonly sizes: readonly number[];
  readonly folder: string;
  readonly rounds: number;
  readonly seed: number;
  readonly tell: (line: string) => void;
}): Promise<GrownFound[]> {
  const { sizes, folder, rounds, seed, tell } = input;
  const { bavail, bsize } = statfsSync(folder);
  const needed = Math.max(...sizes) * BYTES_A_BATCH;
  if (bavail * bsize < needed) throw new Error(`${Math.round(needed / 1e9)} GB are needed in ${folder}, and ${Math.round((bavail * bsize) / 1e9)} are free.`); // prettier-ignore
  const file = join(folder, 'vatside.sqlite');
  const found: GrownFound[] = [];
  let from = 0;
  for (const batches of sizes) {
    await (await openSqliteStore({ file, nowMs: Date.now() })).close();
    const writing = performance.now();
    await growStore({ file, from, to: batches, seed });
    from = batches;
    const relisting = performance.now();
    const store = await openSqliteStore({ file, nowMs: Date.now() });
    const listed = await store.batches.relist();
    await store.close();
    const relistingS = tenths((performance.now() - relisting) / 1000);
    if (listed !== batches) throw new Error(`${listed} of ${batches} batches are listed`);
    tell(`${batches} batches, ${batches * EVENTS_A_BATCH} events: written, and listed in ${relistingS} s`);
    const starting = performance.now();
    const server = serve({ dataDir: folder });
    try {
      const url = await server.url;
      const servedMs = Math.round(performance.now() - starting);
      let state = seed;
      const chance = (): number => (state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0) / 2 ** 32;
      // The first answers also load what is asked for the first time in a process.
      await measureStore({ url, rounds: 3, batches, chance });
      const measured = await measureStore({ url, rounds, batches, chance });
      const cost = processCost(server.pid);
      found.push({
        ...measured,
        batches,
        events: batches * EVENTS_A_BATCH,
        fileMb: Math.round(statSync(file).size / 1e6),
        writingS: tenths((relisting - writing) / 1000),
        relistingS,
        servedMs,
        highestMb: cost === null ? null : Math.round(cost.highestMb),
      });
    } finally {
      await server.kill();
    }
  }
  return found;
}
