import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { newSchema } from '../store/database.ts';
import { attackApi } from './attack/api-attack.ts';

it('whatever is sent to a server with its log on PostgreSQL is taken, or refused with what is wrong', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'vatside-fuzz-pg-'));
  const schema = await newSchema();
  const { wrong, taken, refused } = await attackApi({ folder, databaseUrl: schema.url, seed: 20261130, runs: 400 });
  expect(wrong).toEqual([]);
  expect(Math.min(taken, refused)).toBeGreaterThan(100);
  await schema.remove();
  rmSync(folder, { recursive: true });
});
