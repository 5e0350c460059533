import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createApp } from '../../src/doors/server/app.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { notingDevice } from '../store/sample-events.ts';

const hostile = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 80 }),
  fc.constantFrom(
    '__proto__', 'constructor', 'toString', '../../etc', "'; drop table events; --", '\u0000', '\ud800', '', 'x'.repeat(9000),
  ), // prettier-ignore
);
const bodyText = fc.oneof(
  fc.json({ maxDepth: 6 }),
  fc.string({ maxLength: 200 }),
  fc.constantFrom(
    '',
    '{',
    'null',
    '[[[[',
    '['.repeat(100_000),
    '{"events":'.repeat(5000),
    '{"events":[{"__proto__":{"a":1}}]}',
  ),
);

/** Half characters become whole ones: no browser can put them into an address. */
function urlPart(text: string): string {
  return encodeURIComponent(new TextDecoder().decode(new TextEncoder().encode(text)));
}

describe('whatever is sent to the server', () => {
  it('is answered without a fault of the server, and changes no event that is there', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'vatside-fuzz-'));
    const store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: 0 });
    const app = createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map() });
    const event = notingDevice('tablet')('foam');
    await store.append([event]);
    let asked = 0;
    const faultless = async (path: string, init?: RequestInit): Promise<void> => {
      const answer = await app.request(path, init);
      const text = await answer.text();
      expect(answer.status, `${path} ${text}`).toBeLessThan(500);
      expect(text).not.toMatch(/node_modules|\.ts:\d/);
      asked++;
    };
    const send = (body: string): Promise<void> =>
      faultless('/api/events', { method: 'POST', headers: { 'content-type': 'application/json' }, body });

    await fc.assert(fc.asyncProperty(bodyText, send), { seed: 20261125, numRuns: 150 });
    await fc.assert(
      fc.asyncProperty(hostile, hostile, async (a, b) => {
        await faultless(`/api/streams/${urlPart(a)}/events?after=${urlPart(b)}`);
        await faultless(`/api/calc/${urlPart(a)}`);
      }),
      { seed: 20261125, numRuns: 100 },
    );
    const field = fc.constantFrom('id', 'streamId', 'kind', 'version', 'happenedAt', 'clock', 'person', 'deviceId', 'deviceSeq', 'body'); // prettier-ignore
    await fc.assert(
      fc.asyncProperty(field, fc.oneof(hostile, fc.jsonValue()), (name, value) =>
        send(JSON.stringify({ events: [{ ...event, id: 'other', [name]: value }] })),
      ),
      { seed: 20261125, numRuns: 150 },
    );
    expect(asked).toBe(500);
    expect((await store.readStream({ streamId: 'batch:ash', after: 0 }))[0]).toEqual({ n: 1, event });
    await store.close();
    rmSync(folder, { recursive: true });
  });
});
