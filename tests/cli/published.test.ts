import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';

it('npm run published prints every published value with its source, and ends with the count', () => {
  const { status, stdout } = spawnSync(process.execPath, ['scripts/published.mjs'], {
    cwd: new URL('../../', import.meta.url),
    encoding: 'utf8',
  });
  const lines = stdout.trimEnd().split('\n');
  const [, within = '', all = '', known = ''] =
    /^published: (\d+) of (\d+) within tolerance \((\d+) known misses\)$/.exec(lines.at(-1) ?? '') ?? [];
  expect(status).toBe(0);
  expect(Number(all)).toBeGreaterThan(300);
  expect(Number(within) + Number(known)).toBe(Number(all));
  const row = lines.find((line) => line.startsWith('curd-A10 '));
  expect(row).toMatch(/23\.28 .*-67\.1 % .*±10 % .*known miss .*University of Belgrade/);
  expect(lines).toContainEqual(expect.stringMatching(/^Rennet and clotting: 9 of 10 within tolerance, 1 known miss; /));
});
