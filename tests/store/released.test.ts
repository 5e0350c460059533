import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseLogFile } from '../../src/exchange/log-file.ts';
import { ALL_KINDS } from '../../src/record/keeping-events.ts';
import { openPlainSqlite } from '../../src/store/node-sqlite.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { bringsForward, released } from './released.ts';

describe('a newer program with an older SQLite file', () => {
  bringsForward(() => {
    const folder = mkdtempSync(join(tmpdir(), 'vatside-released-'));
    const file = join(folder, 'log.sqlite');
    return Promise.resolve({
      async run(statements) {
        const database = await openPlainSqlite(file);
        database.exec(statements);
        database.close();
      },
      open: () => openSqliteStore({ file, nowMs: 0 }),
      remove: () => Promise.resolve(rmSync(folder, { recursive: true })),
    });
  });
});

describe('a newer program with an older file of a device', () => {
  it('reads every form that copies have had, to the same events', () => {
    const events = parseLogFile(released('copy-1.ndjson'), ALL_KINDS);
    expect(events.length).toBeGreaterThan(30);
    expect(parseLogFile(released('log-1.txt'), ALL_KINDS)).toEqual(events);
  });
});
