import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { copyText } from '../../src/exchange/copy/copy-text.ts';
import { parseLogFile } from '../../src/exchange/log-file.ts';
import { openPostgresStore } from '../../src/store/postgres.ts';
import { keptDairy } from '../kept-dairy.ts';
import { newSchema, type Schema } from '../store/database.ts';
import { notingDevice } from '../store/sample-events.ts';
import { run, type Ran } from './run.ts';

const folder = mkdtempSync(join(tmpdir(), 'vatside-leaving-pg-'));
const at = (...names: readonly string[]): string => join(folder, ...names);
const vatside = (...line: readonly string[]): Promise<Ran> => run({ line });
const text = (...names: readonly string[]): string => readFileSync(at(...names), 'utf8');
const dairy = keptDairy();
const schemas: Schema[] = [];
/** From here on, commands that name no folder are about a new database. */
async function newDatabase(): Promise<Schema> {
  const schema = await newSchema();
  schemas.push(schema);
  vi.stubEnv('VATSIDE_DATABASE_URL', schema.url);
  return schema;
}

beforeAll(() => {
  const streams = new Map(dairy.map(({ streamId }) => [streamId, dairy.filter((event) => event.streamId === streamId)])); // prettier-ignore
  writeFileSync(at('dairy.ndjson'), copyText(streams));
});
afterEach(() => vi.unstubAllEnvs());
afterAll(async () => {
  for (const schema of schemas) await schema.remove();
  rmSync(folder, { recursive: true });
});

describe('a dairy whose log is in PostgreSQL', () => {
  it('leaves for a folder and comes back into another database without difference', async () => {
    const first = await newDatabase();
    expect(await vatside('import', at('dairy.ndjson'))).toMatchObject({ code: 0, err: '' });
    const backup = await vatside('backup', at('backup.ndjson'));
    expect([backup.code, backup.out]).toEqual([0, expect.stringContaining(`${dairy.length.toLocaleString('en-GB')} events`)]); // prettier-ignore
    expect(backup.out).not.toContain(new URL(first.url).password);
    expect(text('backup.ndjson')).toBe(text('dairy.ndjson'));
    expect((await vatside('restore', at('backup.ndjson'))).err).toContain('Restore into an empty database');

    const file = await vatside('restore', at('backup.ndjson'), '--into', at('file'));
    expect([file.code, file.err]).toEqual([0, '']);
    await vatside('backup', at('file.sqlite'), '--data', at('file'));
    await vatside('export', '--all', at('out'), '--data', at('file'));
    expect(text('out', 'events.ndjson')).toBe(text('dairy.ndjson'));

    await newDatabase();
    expect((await vatside('restore', at('file.sqlite'))).err).toContain('restore events.ndjson from there');
    expect((await vatside('restore', at('out', 'events.ndjson'), '--replace')).err).toContain('--replace is for a store in a file'); // prettier-ignore
    expect((await vatside('restore', at('out', 'events.ndjson'))).code).toBe(0);
    await vatside('export', '--all', at('out-again'));
    for (const name of ['events.ndjson', 'batches.csv', 'readings.csv']) expect(text('out-again', name)).toBe(text('out', name)); // prettier-ignore
  });

  it('is backed up whole as of one moment while two servers write', async () => {
    const { url } = await newDatabase();
    const stores = await Promise.all([0, 1].map(() => openPostgresStore({ url, nowMs: 0 })));
    const busy = { isWriting: true, acknowledged: 0 };
    const writing = stores.map(async (store, index) => {
      const note = notingDevice(`device-${index}`);
      while (busy.isWriting) {
        await store.append([note('foam'), note('sour', 'batch:birch')]);
        busy.acknowledged += 2;
      }
    });
    for (const round of [0, 1, 2]) {
      await vi.waitUntil(() => busy.acknowledged >= (round + 1) * 30, 30_000);
      const before = busy.acknowledged;
      expect((await vatside('backup', at(`busy-${round}.ndjson`))).code).toBe(0);
      const events = parseLogFile(text(`busy-${round}.ndjson`));
      expect(events.length).toBeGreaterThanOrEqual(before);
      // Of each append both notes or none.
      expect(events.filter(({ streamId }) => streamId === 'batch:ash')).toHaveLength(events.length / 2);
    }
    busy.isWriting = false;
    await Promise.all(writing);
    await Promise.all(stores.map((store) => store.close()));
  });
});
