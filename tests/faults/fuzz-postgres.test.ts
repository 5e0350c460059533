import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { newSchema } from '../store/database.ts';
import { notingDevice } from '../store/sample-events.ts';
import { attackApi } from './attack/api-attack.ts';
import { openTarget } from './attack/target.ts';

it('whatever is sent to a server with its log on PostgreSQL is taken, or refused with what is wrong', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'vatside-fuzz-pg-'));
  const schema = await newSchema();
  const { wrong, taken, refused } = await attackApi({ folder, databaseUrl: schema.url, seed: 20261130, runs: 400 });
  expect(wrong).toEqual([]);
  expect(Math.min(taken, refused)).toBeGreaterThan(100);
  await schema.remove();
  rmSync(folder, { recursive: true });
});

it('a helper who takes back what no event can be called is refused that alone, and what came with it is kept', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'vatside-nul-pg-'));
  const schema = await newSchema();
  const target = await openTarget({ folder, databaseUrl: schema.url });
  const note = notingDevice('log-helper')('foam');
  const odd = {
    ...notingDevice('log-helper')('x'),
    id: 'odd',
    deviceSeq: 7,
    kind: 'retracted',
    body: { replaces: 'a\u0000b' },
  };
  const answer = await target.ask('/api/events', { asker: 'helper', method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ events: [odd, note] }) }); // prettier-ignore
  expect(await answer.json()).toMatchObject({ answers: [{ id: 'odd', state: 'refused' }, { id: note.id, state: 'added' }] }); // prettier-ignore
  await target.close();
  await schema.remove();
  rmSync(folder, { recursive: true });
});
