import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { startServer } from '../../src/doors/server/serve.ts';
import { notingDevice } from '../store/sample-events.ts';

const folderOf = (): { dataDir: string; makesDir: string } => {
  const folder = mkdtempSync(join(tmpdir(), 'vatside-serve-'));
  mkdirSync(join(folder, 'makes'));
  return { dataDir: join(folder, 'data'), makesDir: join(folder, 'makes') };
};

describe('the server on its port', () => {
  it('has everything after a restart in the middle of a make', async () => {
    const folders = folderOf();
    const note = notingDevice('tablet');
    const push = (url: string, text: string): Promise<Response> =>
      fetch(`${url}api/events`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ events: [note(text)] }),
      });
    const first = await startServer({ ...folders, port: 0 });
    expect((await push(first.url, 'before')).status).toBe(200);
    // A listening page must not hold the server up.
    const line = await fetch(`${first.url}api/live`);
    await first.close();
    await line.body?.cancel().catch(() => undefined);
    const second = await startServer({ ...folders, port: 0 });
    expect((await push(second.url, 'after')).status).toBe(200);
    const page: unknown = await (await fetch(`${second.url}api/streams/batch:ash/events?after=0`)).json();
    expect(page).toMatchObject({ last: 2, events: [{ event: { body: { text: 'before' } } }, { event: { body: { text: 'after' } } }] }); // prettier-ignore
    await second.close();
    rmSync(join(folders.dataDir, '..'), { recursive: true });
  });

  it('takes the next port when its own is taken, and no address but this device', async () => {
    const folders = folderOf();
    const first = await startServer({ ...folders, port: 0 });
    const port = Number(new URL(first.url).port);
    const second = await startServer({ ...folders, port });
    expect(Number(new URL(second.url).port)).toBeGreaterThan(port);
    await expect(startServer({ ...folders, host: '0.0.0.0' })).rejects.toThrow(/host/);
    await first.close();
    await second.close();
    rmSync(join(folders.dataDir, '..'), { recursive: true });
  });
});
