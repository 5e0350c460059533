import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const command = fileURLToPath(new URL('../../bin/vatside', import.meta.url));

describe('the command itself', () => {
  it('answers a sum from standard input, and passes its exit code on', () => {
    const ask = (input: string) => spawnSync(process.execPath, [command, 'calc', 'scald'], { input, encoding: 'utf8' });
    const answered = ask('{"waterC": 60}');
    expect([answered.status, answered.stderr]).toEqual([0, '']);
    expect(answered.stdout).toContain('"secondsToBlister"');
    const refused = ask('{"waterF": 140}');
    expect([refused.status, refused.stdout]).toEqual([2, '']);
    expect(refused.stderr).toContain('waterC');
  });

  it('serves on this device, says where, and stops cleanly when asked', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'vatside-serve-'));
    const child = spawn(process.execPath, [command, 'serve', '--port', '0', '--data', folder, '--no-open']);
    let said = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => (said += text));
    child.stderr.setEncoding('utf8').on('data', (text: string) => (said += text));
    const ended = new Promise<number | null>((resolve) => child.once('close', resolve));
    try {
      const url = await new Promise<string>((resolve, reject) => {
        child.stdout.on('data', () => {
          const found = /http:\/\/127\.0\.0\.1:\d+\//.exec(said)?.[0];
          if (found !== undefined) resolve(found);
        });
        void ended.then(() => reject(new Error(said)));
      });
      expect((await fetch(`${url}api/makes`)).status).toBe(200);
      child.kill('SIGINT');
      expect(await ended).toBe(0);
      expect(said).toContain('Stopped.');
      expect(said).toContain(join(folder, 'vatside.sqlite'));
    } finally {
      child.kill('SIGKILL');
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
