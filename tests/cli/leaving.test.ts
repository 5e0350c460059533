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
import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { copyText } from '../../src/exchange/copy/copy-text.ts';
import { parseLogFile } from '../../src/exchange/log-file.ts';
import { parseMake } from '../../src/make/make.ts';
import { foldBatch } from '../../src/record/fold.ts';
import { ALL_KINDS } from '../../src/record/keeping-events.ts';
import type { Event } from '../../src/record/event.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { keptDairy } from '../kept-dairy.ts';
import { notingDevice } from '../store/sample-events.ts';
import { run, type Ran } from './run.ts';

const dairy = keptDairy();
const folder = mkdtempSync(join(tmpdir(), 'vatside-leaving-'));
const at = (...names: readonly string[]): string => join(folder, ...names);
const vatside = (...line: readonly string[]): Promise<Ran> => run({ line });
const text = (...names: readonly string[]): string => readFileSync(at(...names), 'utf8');

async function keep(name: string, events: readonly Event[]): Promise<void> {
  const store = await openSqliteStore({ file: at(name, 'vatside.sqlite'), nowMs: 0 });
  await store.append(events);
  await store.close();
}
const byStream = (events: readonly Event[]): Map<string, Event[]> => {
  const map = new Map<string, Event[]>();
  for (const event of events) map.set(event.streamId, [...(map.get(event.streamId) ?? []), event]);
  return map;
};

beforeAll(async () => {
  // In two steps and out of order, as two devices would hand them in.
  await keep('dairy', dairy.filter((_, index) => index % 3 === 0)); // prettier-ignore
  await keep('dairy', [...dairy].reverse());
  expect((await vatside('export', '--all', at('out'), '--data', at('dairy'))).code).toBe(0);
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('a dairy that leaves', () => {
  it('takes everything with it in forms that other programs read', () => {
    expect(readdirSync(at('out')).sort()).toEqual(['README.txt', 'batches.csv', 'copy.schema.json', 'events.ndjson', 'make.schema.json', 'makes', 'readings.csv']); // prettier-ignore
    const events = parseLogFile(text('out', 'events.ndjson'), ALL_KINDS);
    expect(new Set(events.map(({ id }) => id))).toEqual(new Set(dairy.map(({ id }) => id)));
    const table = (name: string) => Papa.parse<Record<string, string>>(text('out', name), { header: true, skipEmptyLines: true }); // prettier-ignore
    const batches = table('batches.csv');
    expect(batches.errors).toEqual([]);
    const records = [...byStream(dairy)].filter(([id]) => id.startsWith('batch:')).map(([, list]) => foldBatch(list));
    expect(new Set(batches.data.map(({ batch }) => batch))).toEqual(new Set(records.map(({ batchId }) => batchId)));
    expect(batches.data.every(({ milkL }) => Number(milkL) > 0)).toBe(true);
    const standing = records.reduce((sum, { readings }) => sum + readings.length, 0);
    expect(standing).toBeGreaterThan(20);
    expect(table('readings.csv').data.filter(({ standing: how }) => how === 'stands')).toHaveLength(standing);
    expect(parseMake(JSON.parse(text('out', 'makes', 'make-own-ball.json'))).id).toBe('own-ball');
  });

  it('takes each of two makes with it whose ids differ in a sign alone', async () => {
    const own = dairy.find(({ streamId }) => streamId === 'make:own-ball')!;
    const twin = {
      ...own,
      id: 'twin',
      streamId: 'make:Own_Ball',
      body: { make: { ...(own.body['make'] as object), name: 'Twin' } },
    };
    await keep('twins', [own, twin]);
    expect((await vatside('export', '--all', at('twins-out'), '--data', at('twins'))).out).toContain('2 makes');
    expect(readdirSync(at('twins-out', 'makes')).sort()).toEqual(['make-own-ball-2.json', 'make-own-ball.json']);
  });

  it('comes back without difference, and a second time adds nothing', async () => {
    const first = await vatside('import', at('out', 'events.ndjson'), '--data', at('new'));
    expect(first).toMatchObject({ code: 0, err: '' });
    expect(first.out).toContain(`${dairy.length} events added, 0 were there already`);
    const again = await vatside('import', at('out', 'events.ndjson'), '--data', at('new'));
    expect(again.out).toContain(`0 events added, ${dairy.length} were there already`);
    await vatside('export', '--all', at('out-again'), '--data', at('new'));
    for (const name of ['events.ndjson', 'batches.csv', 'readings.csv']) expect(text('out-again', name), name).toBe(text('out', name)); // prettier-ignore
  });

  it('finds its place in a store where some of it lies already', async () => {
    const extra = notingDevice('phone')('foam');
    await keep('half', [...dairy.slice(0, 40), extra]);
    const { out } = await vatside('import', at('out', 'events.ndjson'), '--data', at('half'));
    expect(out).toContain(`${dairy.length - 40} events added, 40 were there already`);
  });

  it('takes a copy that a device saved, the worked example left out, and a device takes what the command wrote', async () => {
    const demo = { ...notingDevice('phone')('foam'), streamId: 'batch:demo-ash' };
    const note = notingDevice('tablet')('sour');
    writeFileSync(at('device.ndjson'), copyText(byStream([note, demo])));
    const taken = await vatside('import', at('device.ndjson'), '--data', at('from-device'));
    expect(taken.out).toMatch(/1 events? added.*\n1 event of the worked example was left out/);
    await vatside('export', '--all', at('device-out'), '--data', at('from-device'));
    expect(parseLogFile(text('device-out', 'events.ndjson'), ALL_KINDS)).toEqual([note]);
  });

  it('takes the form that devices saved before', async () => {
    const [one, two] = [notingDevice('tablet')('foam'), notingDevice('phone')('sour')];
    writeFileSync(at('old.json'), `{"format":"vatside-log","version":1,"events":[\n${JSON.stringify(one)},\n${JSON.stringify(two)}\n]}\n`); // prettier-ignore
    expect((await vatside('import', at('old.json'), '--data', at('from-old'))).out).toContain('2 events added');
  });
});

describe('a file that is not what it says', () => {
  const whole = (): string => text('out', 'events.ndjson');
  const untouched = async (data: string, count: number): Promise<void> => {
    const store = await openSqliteStore({ file: at(data, 'vatside.sqlite'), nowMs: 0 });
    expect((await store.listStreams()).reduce((sum, { last }) => sum + last, 0)).toBe(count);
    await store.close();
  };

  it('is refused by line and field, and nothing of it is taken in', async () => {
    await keep('mine', [notingDevice('tablet')('foam')]);
    const lines = whole().split('\n');
    const wrong: readonly (readonly [string, string | Uint8Array, RegExp])[] = [
      ['cut.ndjson', whole().slice(0, -200), /cut\.ndjson, line \d+ .*take another copy/],
      ['lost-end.ndjson', lines.slice(0, -2).join('\n'), /line \d+ .*a last line with the sum/],
      ['altered.ndjson', whole().replace('"value":', '"value":1'), /line \d+: sha256 .*the sum of all before it/],
      ['binary.ndjson', Buffer.concat([Buffer.from(`${lines[0] ?? ''}\n`), Buffer.from([0xc3, 0x28, 0xff])]), /line 2 .*UTF-8/],
      ['long.ndjson', `${lines[0] ?? ''}\n${'x'.repeat(5_000_000)}`, /line 2 .*characters a line/],
      ['zip.ndjson', Buffer.from('504b03041400', 'hex'), /is packed\. Unpack it/],
      ['gzip.json', Buffer.from('1f8b0800', 'hex'), /is packed/],
      ['empty.ndjson', '', /is empty/],
      ['list.json', '[]', /line 1 .*"format": "vatside-copy"/],
      ['store.sqlite', 'SQLite format 3\u0000', /vatside restore takes it/],
    ];
    for (const [name, content, expected] of wrong) {
      writeFileSync(at(name), content);
      const { code, err, out } = await vatside('import', at('out', 'events.ndjson'), at(name), '--data', at('mine'));
      expect([code, out], name).toEqual([2, '']);
      expect(err, name).toMatch(expected);
    }
    await untouched('mine', 1);
    expect((await vatside('import', at('nowhere.ndjson'), '--data', at('nothing'))).code).toBe(2);
    expect(existsSync(at('nothing'))).toBe(false);
  }); // prettier-ignore

  it('is refused by the ids that the store has with other content, and nothing of it is taken in', async () => {
    const note = notingDevice('tablet');
    const [one, two, three] = [note('foam'), note('sour'), note('firm')];
    await keep('theirs', [one, { ...two, person: 'N' }]);
    writeFileSync(at('conflict.ndjson'), copyText(byStream([one, two, three])));
    const { code, err } = await vatside('import', at('conflict.ndjson'), '--data', at('theirs'));
    expect(code).toBe(2);
    expect(err).toContain(`conflict.ndjson, id "${two.id}" does not fit`);
    expect(err).not.toContain(one.id);
    await untouched('theirs', 2);
  });

  it('says how far it came when one id stands twice in it, and goes on from there', async () => {
    const note = notingDevice('tablet');
    const events = Array.from({ length: 700 }, (_, index) => note(`look ${index}`));
    const twice = { ...events[0]!, body: { text: 'another look' } };
    writeFileSync(at('twice.ndjson'), copyText(byStream([...events, twice])));
    const { code, err } = await vatside('import', at('twice.ndjson'), '--data', at('twice'));
    expect(code).toBe(1);
    expect(err).toMatch(/stopped after 500 events, all of them whole in the store: Event .* exists with other content/);
    await untouched('twice', 500);
  });
});

describe('what is written', () => {
  it('goes into a new folder only, and comes from a store that is there', async () => {
    mkdirSync(at('full'));
    writeFileSync(at('full', 'notes.txt'), 'mine');
    const full = await vatside('export', '--all', at('full'), '--data', at('dairy'));
    expect([full.code, readdirSync(at('full'))]).toEqual([2, ['notes.txt']]);
    const none = await vatside('export', '--all', at('none'), '--data', at('not-there'));
    expect(none.code).toBe(2);
    expect(none.err).toContain('there is no store at');
    expect(existsSync(at('not-there')) || existsSync(at('none'))).toBe(false);
    expect((await vatside('export', 'tomme', '--all', at('none'), '--data', at('dairy'))).code).toBe(2);
  });

  it('is read by the commands that take a record', async () => {
    copyFileSync(at('out', 'events.ndjson'), at('record.ndjson'));
    const { code, out } = await vatside('export', '--record', at('record.ndjson'), '--as', 'csv', '--batch', 'batch:ash');
    expect(code).toBe(0);
    expect(out.split('\r\n').length).toBeGreaterThan(20);
  }); // prettier-ignore
});
