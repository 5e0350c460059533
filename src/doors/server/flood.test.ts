import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { opened } from '../../../tests/faults/attack/opened-make.ts';
import { openTarget, type Asker, type Target } from '../../../tests/faults/attack/target.ts';
import { MOST_REFUSED } from './flood.ts';

/** A server that is shared, and somebody behind the same address who asks for what there is not, again and again. */

let folder: string;
let target: Target;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-flood-'));
  // Ten requests a second.
  target = await openTarget({ folder, paceMs: 100 });
  await target.store.append(opened());
});
afterEach(async () => {
  await target.close();
  rmSync(folder, { recursive: true });
});

const missing = async (asker: Asker): Promise<number> => (await target.ask('/api/nothing', { asker })).status;
const reading = async (asker: Asker): Promise<number> =>
  (await target.ask('/api/batches/ash/readings', { method: 'POST', headers: { 'content-type': 'application/json' }, body: '{"quantity":"temperatureC","value":36.4}', asker })).status; // prettier-ignore
async function flood(asker: Asker): Promise<void> {
  for (let sent = 0; sent < MOST_REFUSED; sent++) await missing(asker);
}

describe('a flood of requests that cannot be answered', () => {
  it('by somebody who is not paired ends in being told when to come again, and is over a minute later', async () => {
    await flood('nobody');
    const answer = await target.ask('/api/me', { asker: 'nobody' });
    expect(answer.status).toBe(429);
    const wait = Number(answer.headers.get('retry-after'));
    expect(wait).toBeGreaterThan(40);
    expect(wait).toBeLessThanOrEqual(60);
    for (let passing = 0; passing < wait * 10; passing++) await target.ask('/api/health', {});
    expect((await target.ask('/api/me', { asker: 'nobody' })).status).toBe(200);
  });

  it('keeps no paired device behind the same address from anything', async () => {
    await flood('nobody');
    expect(await reading('helper')).toBe(200);
    expect((await target.ask('/api/streams', { asker: 'reader' })).status).toBe(200);
  });

  it('by a paired device keeps its readings from nothing, only all else for a while', async () => {
    await flood('helper');
    expect((await target.ask('/api/streams', { asker: 'helper' })).status).toBe(429);
    expect(await reading('helper')).toBe(200);
    expect((await target.ask('/api/events', { method: 'POST', headers: { 'content-type': 'application/json' }, body: '{"events":[]}', asker: 'helper' })).status).toBe(200); // prettier-ignore
    expect(await reading('maker')).toBe(200);
  });

  it('at the machine itself is no flood: whoever sits there is answered', async () => {
    await flood('owner');
    expect(await missing('owner')).toBe(404);
    expect((await target.ask('/api/health', {})).status).toBe(200);
  });
});
