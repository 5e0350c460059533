import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pageLimit } from './full-disk.ts';
import { killRounds } from './kill-rounds.ts';
import { liveHour } from './live-hour.ts';
import { bundleServer } from './served.ts';
import { anyHour } from './three-devices.ts';

/** The short form of `npm run faults`: the same parts, smaller. */
const SEED = 20261129;
const KILLS = 10;
const HOURS = 12;

let folder: string;
beforeAll(() => {
  bundleServer();
  folder = mkdtempSync(join(tmpdir(), 'vatside-faults-short-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a server that is killed outright while tablets write', () => {
  it('has lost and doubled nothing that it acknowledged, and opens every time', async () => {
    const found = await killRounds({ rounds: KILLS, seed: SEED, folder, tell: () => undefined });
    expect(found).toMatchObject({ kills: KILLS, lost: 0, duplicated: 0, corrupt: 0, failures: [] });
    expect(found.killsInOpening * found.killsOfNewStores * found.roundsOfTwo).toBeGreaterThan(0);
    expect(found.acknowledged).toBeGreaterThan(KILLS);
    expect(found.readings).toBeGreaterThan(0);
  }, 240_000);
});

describe('a server whose disk is full', () => {
  it('says so, takes nothing by halves, and goes on by itself once there is room', async () => {
    const found = await pageLimit({ folder, seed: SEED, times: 2 });
    expect(found).toMatchObject({ lost: 0, duplicated: 0, corrupt: 0, failures: [] });
    expect(found.refused).toBeGreaterThanOrEqual(10);
    expect(found.keptAfter).toBeGreaterThan(0);
  });
});

describe('two tablets and a phone at one make, out of touch, their clocks hours apart', () => {
  it('come to the same story, each note once, everything after what its device knew', async () => {
    let merges = 0;
    await fc.assert(
      fc.asyncProperty(anyHour, async (hour) => {
        const found = await liveHour(hour);
        merges += found.merges;
        expect(found).toMatchObject({ lost: 0, duplicated: 0, wrong: [] });
      }),
      { seed: SEED, numRuns: HOURS },
    );
    expect(merges).toBeGreaterThan(HOURS);
  });
});
