import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { createReadStream, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { openSqliteStore } from '../../../src/store/sqlite.ts';
import { SERVER } from '../served.ts';
import { EVENTS_A_BATCH, growStore } from './grown-store.ts';
import { tenths } from './percentile.ts';

/** What it takes to copy a store, to write it out as text, and to take that text into an empty one. Seconds. */
export interface CopyingFound {
  readonly events: number;
  readonly backupS: number;
  readonly exportS: number;
  readonly importS: number;
  /** Where what came back is not, byte for byte, what went out. */
  readonly wrong: readonly string[];
}

/** Copies a store of so many batches by the command, as somebody who leaves does. Needs the built command. */
export async function measureCopying(input: {
  readonly batches: number;
  readonly folder: string;
  readonly seed: number;
}): Promise<CopyingFound> {
  const { batches, folder, seed } = input;
  const at = (...names: readonly string[]): string => join(folder, 'copying', ...names);
  mkdirSync(at('first'), { recursive: true });
  const file = at('first', 'vatside.sqlite');
  await (await openSqliteStore({ file, nowMs: 0 })).close();
  await growStore({ file, from: 0, to: batches, seed });
  const backupS = await seconds('backup', at('backup.sqlite'), '--data', at('first'));
  const exportS = await seconds('export', '--all', at('out'), '--data', at('first'));
  const importS = await seconds('import', at('out', 'events.ndjson'), '--data', at('second'));
  await seconds('export', '--all', at('again'), '--data', at('second'));
  const [out, again] = await Promise.all(['out', 'again'].map((name) => sumOf(at(name, 'events.ndjson'))));
  rmSync(at(), { recursive: true });
  const wrong = out === again ? [] : [`${batches} batches: what was imported is exported as something else`];
  return { events: batches * EVENTS_A_BATCH, backupS, exportS, importS, wrong };
}

async function seconds(...line: readonly string[]): Promise<number> {
  const started = performance.now();
  await promisify(execFile)(process.execPath, [SERVER, ...line]);
  return tenths((performance.now() - started) / 1000);
}

async function sumOf(file: string): Promise<string> {
  const sum = createHash('sha256');
  for await (const part of createReadStream(file)) sum.update(part as Buffer);
  return sum.digest('hex');
}
