import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { parseLogFile } from '../../src/exchange/log-file.ts';
import type { Event } from '../../src/record/event.ts';
import { openPlainSqlite } from '../../src/store/node-sqlite.ts';
import { notingDevice } from '../store/sample-events.ts';
import { run, type Ran } from './run.ts';

const command = fileURLToPath(new URL('../../bin/vatside', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'vatside-backup-'));
const at = (...names: readonly string[]): string => join(folder, ...names);
const vatside = (...line: readonly string[]): Promise<Ran> => run({ line });
const note = notingDevice('tablet');
const acknowledged: Event[] = [];
let serving: ChildProcess | null = null;

afterAll(() => {
  serving?.kill('SIGKILL');
  rmSync(folder, { recursive: true });
});

async function serve(): Promise<string> {
  const child = spawn(process.execPath, [command, 'serve', '--port', '0', '--data', at('dairy'), '--no-open']);
  serving = child;
  return new Promise((resolve, reject) => {
    let said = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      said += text;
      const found = /http:\/\/127\.0\.0\.1:\d+\//.exec(said)?.[0];
      if (found !== undefined) resolve(found);
    });
    child.once('close', () => reject(new Error(said)));
  });
}

/** Two notes a request, in two streams, as fast as the server takes them, until it is told to stop. */
async function writeOn(url: string, isWriting: () => boolean): Promise<void> {
  while (isWriting()) {
    const events = [note('foam'), note('sour', 'batch:birch')];
    const answer = await fetch(`${url}api/events`, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ events }) }); // prettier-ignore
    expect(answer.status).toBe(200);
    acknowledged.push(...events);
  }
}

/** The events of a backup, by way of a restore into a folder of its own. */
async function restored(file: string, into: string): Promise<Event[]> {
  const { code, err } = await vatside('restore', file, '--into', into);
  expect([code, err]).toEqual([0, '']);
  await vatside('export', '--all', `${into}-out`, '--data', into);
  return parseLogFile(readFileSync(join(`${into}-out`, 'events.ndjson'), 'utf8'));
}

describe('a backup', () => {
  it('is made while the app is writing, whole as of one moment, and goes back into an empty folder', async () => {
    const url = await serve();
    let isWriting = true;
    const writing = writeOn(url, () => isWriting);
    const before: number[] = [];
    for (const round of [0, 1, 2]) {
      while (acknowledged.length < (round + 1) * 20) await new Promise((resolve) => setTimeout(resolve, 5));
      before.push(acknowledged.length);
      const { code, out, err } = await vatside('backup', at(`backup-${round}.sqlite`), '--data', at('dairy'));
      expect([code, err]).toEqual([0, '']);
      expect(out).toMatch(/\d+ events in 2 streams/);
    }
    const refused = await vatside('restore', at('backup-0.sqlite'), '--into', at('dairy'), '--replace');
    expect([refused.code, refused.err]).toEqual([2, expect.stringContaining('is being used by a running program. Stop it first')]); // prettier-ignore
    isWriting = false;
    await writing;
    for (const round of [0, 1, 2]) {
      const events = await restored(at(`backup-${round}.sqlite`), at(`again-${round}`));
      const ids = new Set(events.map(({ id }) => id));
      // All that was acknowledged before it, and of each append both notes or none.
      expect(acknowledged.slice(0, before[round]).filter(({ id }) => !ids.has(id))).toEqual([]);
      expect(events.filter(({ streamId }) => streamId === 'batch:ash')).toHaveLength(events.length / 2);
      expect(events.every((event) => acknowledged.some(({ id }) => id === event.id))).toBe(true);
    }
    const server = serving;
    const ended = new Promise((resolve) => server?.once('close', resolve));
    server?.kill('SIGINT');
    await ended;
  });

  it('is not written over anything, nor over the store itself', async () => {
    writeFileSync(at('notes.txt'), 'mine');
    const taken = await vatside('backup', at('notes.txt'), '--data', at('dairy'));
    expect([taken.code, readFileSync(at('notes.txt'), 'utf8')]).toEqual([2, 'mine']);
    expect(taken.err).toContain('is there already');
    expect((await vatside('backup', at('notes.txt'), '--data', at('dairy'), '--force')).code).toBe(0);
    const itself = await vatside('backup', at('dairy', 'vatside.sqlite'), '--data', at('dairy'), '--force');
    expect([itself.code, itself.err]).toEqual([2, expect.stringContaining('is the store itself')]);
    expect((await vatside('backup', at('none', 'x.sqlite'), '--data', at('dairy'))).code).not.toBe(0);
    expect((await vatside('backup', at('x.sqlite'), '--data', at('none'))).err).toContain('there is no store at');
    expect(readdirSync(folder).filter((name) => name.includes('unfinished'))).toEqual([]);
  });

  it('never takes the place of a log that has entries, unless that one is kept aside', async () => {
    const refused = await vatside('restore', at('backup-0.sqlite'), '--into', at('dairy'));
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(/has \d+ events in 2 streams already\. Name an empty folder/);
    const { code, out } = await vatside('restore', at('backup-0.sqlite'), '--into', at('dairy'), '--replace');
    expect(code).toBe(0);
    expect(out).toContain('What was there before is kept as');
    const aside = readdirSync(at('dairy')).filter((name) => /^vatside\.\d{4}-.*\.sqlite$/.test(name));
    expect(aside).toHaveLength(1);
    const kept = await restored(at('dairy', aside[0] ?? ''), at('kept'));
    expect(new Set(kept.map(({ id }) => id))).toEqual(new Set(acknowledged.map(({ id }) => id)));
  });

  it('is refused where it is damaged, of a newer program, of another one, or a store at work; nothing is changed', async () => {
    const whole = readFileSync(at('backup-2.sqlite'));
    const file = (name: string, bytes: Uint8Array): string => {
      writeFileSync(at(name), bytes);
      return at(name);
    };
    const holed = Buffer.from(whole).fill(7, 4096, 3 * 4096);
    const newer = await openPlainSqlite(file('newer.sqlite', whole));
    newer.exec('PRAGMA journal_mode = DELETE');
    newer.exec('insert into store_format (format, applied_at) values (99, 0)');
    newer.close();
    const other = await openPlainSqlite(at('other.sqlite'));
    other.exec('create table cheese (name text)');
    other.exec('PRAGMA journal_mode = DELETE');
    other.close();
    file('at-work.sqlite', whole);
    file('at-work.sqlite-wal', Buffer.from('something'));
    const wrong: readonly (readonly [string, RegExp])[] = [
      [file('holed.sqlite', holed), /is not a whole store/],
      [file('short.sqlite', whole.subarray(0, 5000)), /is not a whole store/],
      [at('newer.sqlite'), /This store has format 99; this program knows formats up to \d+\. Nothing was changed/],
      [at('other.sqlite'), /another program/],
      [at('at-work.sqlite'), /a store at work and no backup/],
      [file('text.txt', Buffer.from('hello')), /line 1 "hello"/],
      [at('nowhere.sqlite'), /no such file/],
    ];
    for (const [path, expected] of wrong) {
      const { code, err } = await vatside('restore', path, '--into', at('fresh'));
      expect(code, path).toBe(2);
      expect(err, path).toMatch(expected);
    }
    expect(existsSync(at('fresh')) ? readdirSync(at('fresh')) : []).toEqual([]);
  });

  it('may be a copy as text, where there is no other', async () => {
    const events = await restored(join(`${at('kept')}-out`, 'events.ndjson'), at('from-text'));
    expect(events).toHaveLength(acknowledged.length);
  });
});
