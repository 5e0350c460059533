import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { notingDevice } from '../store/sample-events.ts';
import { run, type Ran } from './run.ts';

const folder = mkdtempSync(join(tmpdir(), 'vatside-place-'));
const at = (...names: readonly string[]): string => join(folder, ...names);
const vatside = (...line: readonly string[]): Promise<Ran> => run({ line });
const note = notingDevice('tablet');
const EVENTS = 1500;

beforeAll(async () => {
  const store = await openSqliteStore({ file: at('dairy', 'vatside.sqlite'), nowMs: 0 });
  for (let count = 0; count < EVENTS; count += 500) await store.append(Array.from({ length: 500 }, () => note('foam')));
  // As a machine leaves it that was switched off: a part stands in the log beside the file.
  mkdirSync(at('left'));
  copyFileSync(at('dairy', 'vatside.sqlite-wal'), at('left', 'vatside.sqlite-wal'));
  await store.close();
  expect((await vatside('backup', at('backup.sqlite'), '--data', at('dairy'))).code).toBe(0);
  expect((await vatside('export', '--all', at('out'), '--data', at('dairy'))).code).toBe(0);
});
afterAll(() => rmSync(folder, { recursive: true }));

const eventsIn = async (data: string): Promise<number> => {
  const store = await openSqliteStore({ file: at(data, 'vatside.sqlite'), nowMs: 0 });
  const { last } = await store.streamState('batch:ash');
  await store.close();
  return last;
};

describe('the place where a backup goes', () => {
  it('may not hold the log of a store that was moved away, which would be read into the restored one', async () => {
    const { code, err } = await vatside('restore', at('backup.sqlite'), '--into', at('left'));
    expect([code, err]).toEqual([2, expect.stringMatching(/vatside\.sqlite-wal lies there without the store/)]);
    expect(readdirSync(at('left'))).toEqual(['vatside.sqlite-wal']);
  });

  it('may hold a store that no program can read any more; it is kept aside, and nothing of its log stays', async () => {
    mkdirSync(at('broken'));
    writeFileSync(at('broken', 'vatside.sqlite'), 'not a store'.repeat(1000));
    writeFileSync(at('broken', 'vatside.sqlite-wal'), 'nor its log'.repeat(1000));
    expect((await vatside('restore', at('backup.sqlite'), '--into', at('broken'))).code).toBe(2);
    const { code, err } = await vatside('restore', at('backup.sqlite'), '--into', at('broken'), '--replace');
    expect([code, err]).toEqual([0, '']);
    expect(existsSync(at('broken', 'vatside.sqlite-wal'))).toBe(false);
    expect(await eventsIn('broken')).toBe(EVENTS);
    const aside = readdirSync(at('broken')).filter((name) => /^vatside\.2.*\.sqlite$/.test(name));
    expect(aside).toHaveLength(1);
    expect(readFileSync(at('broken', aside[0] ?? ''), 'utf8')).toMatch(/^not a store/);
  });

  it('may not be taken by a program that was started while the backup was being looked through', async () => {
    const restoring = vatside('restore', at('out', 'events.ndjson'), '--into', at('taken'));
    const isPreparing = (): boolean => existsSync(at('taken')) && readdirSync(at('taken')).some((name) => name.includes('unfinished')); // prettier-ignore
    while (!isPreparing()) await new Promise((resolve) => setTimeout(resolve, 1));
    const server = await openSqliteStore({ file: at('taken', 'vatside.sqlite'), nowMs: 0 });
    await server.append([note('acknowledged')]);
    const { code, err } = await restoring;
    expect([code, err]).toEqual([2, expect.stringContaining('is being used by a running program')]);
    await server.close();
    expect(await eventsIn('taken')).toBe(1);
  });
});
