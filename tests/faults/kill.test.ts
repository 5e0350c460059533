import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { openNodeSqlite } from '../../src/store/node-sqlite.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';

const ROUNDS = 20;
const writer = fileURLToPath(new URL('writer-process.ts', import.meta.url));

const writers: ChildProcess[] = [];
// Whatever happens to the test, no writer outlives it.
afterAll(() => writers.forEach((child) => child.kill('SIGKILL')));

/** Runs a writer, kills it outright after some acknowledgements, and gives the ids it had acknowledged. */
function writeAndKill(input: {
  readonly file: string;
  readonly deviceId: string;
  readonly after: number;
}): Promise<string[]> {
  const { file, deviceId, after } = input;
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--import', 'tsx', writer, file, deviceId], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    writers.push(child);
    let told = '';
    let complaint = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      told += text;
      if (told.split('\n').length > after) child.kill('SIGKILL');
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => (complaint += text));
    child.on('error', reject);
    child.on('close', (_code, signal) => {
      // The last line may be cut short; it was then not acknowledged in full.
      if (signal === 'SIGKILL') resolve(told.split('\n').slice(0, -1));
      else reject(new Error(`The writer ended by itself: ${complaint}`));
    });
  });
}

describe('a writer that is killed outright', () => {
  it('has lost no note that it acknowledged, in twenty kills, two writers at a time', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'vatside-kill-'));
    const file = join(folder, 'log.sqlite');
    // The file exists before two writers meet on it, as after a first start.
    await (await openSqliteStore({ file, nowMs: 0 })).close();
    const acknowledged: string[] = [];
    for (let round = 0; round < ROUNDS; round += 2) {
      const pair = [0, 1].map((side) => writeAndKill({ file, deviceId: `device-${round + side}`, after: 1 + ((round * 7 + side * 13) % 60) })); // prettier-ignore
      acknowledged.push(...(await Promise.all(pair)).flat());
    }
    expect(acknowledged.length).toBeGreaterThan(ROUNDS);
    const store = await openSqliteStore({ file, nowMs: 0 });
    const kept = await store.readAll({ after: 0, limit: 100_000 });
    const ids = new Set(kept.map(({ event }) => event.id));
    expect(acknowledged.filter((id) => !ids.has(id))).toEqual([]);
    expect(await store.listStreams()).toEqual([{ streamId: 'batch:ash', last: kept.length }]);
    await store.close();
    const database = await openNodeSqlite(file);
    expect(database.prepare('PRAGMA integrity_check').all([])).toMatchObject([{ integrity_check: 'ok' }]);
    database.close();
    rmSync(folder, { recursive: true });
  }, 240_000);
});
