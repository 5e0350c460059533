import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { notingDevice } from '../store/sample-events.ts';
import { listenTo, serveOn } from './two-servers.ts';

describe('a server whose file another program writes to', () => {
  it('tells its pages within a second', async () => {
    const dataDir = mkdtempSync(join(tmpdir(), 'vatside-shared-'));
    const server = await serveOn({ dataDir });
    const line = await listenTo(server.url);
    const other = await openSqliteStore({ file: join(dataDir, 'vatside.sqlite'), nowMs: 0 });
    const note = notingDevice('logger');
    for (const last of [1, 2]) {
      await other.append([note(`look ${last}`)]);
      expect(await line.until('batch:ash', last)).toBeLessThan(1000);
    }
    await other.close();
    await line.hangUp();
    await server.close();
    rmSync(dataDir, { recursive: true });
  });
});
