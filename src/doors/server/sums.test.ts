import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { emptyStore } from '../../../tests/store/empty-store.ts';
import { createApp } from './app.ts';
import { sumsIn } from './sums.ts';

const sums = sumsIn(fileURLToPath(new URL('../../../words', import.meta.url)));
const app = createApp({ store: emptyStore, shelf: { makes: [], broken: [] }, sums });
const ask = (name: string, body: unknown): Promise<Response> =>
  Promise.resolve(app.request(`/api/calc/${name}`, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) })); // prettier-ignore

describe('every sum over HTTP', () => {
  it('answers its own example and refuses an empty or a strange question with the field', async () => {
    expect(sums.size).toBeGreaterThan(15);
    for (const { name, example } of sums.values()) {
      const good = await ask(name, example);
      expect(good.status, `${name} ${await good.clone().text()}`).toBe(200);
      expect(await good.json()).toMatchObject({ name, cautions: expect.any(Array) as unknown, sources: expect.any(Array) as unknown }); // prettier-ignore
      for (const bad of [null, 7, [], { fathoms: 3 }]) {
        const answer = await ask(name, bad);
        expect(answer.status, name).toBe(400);
        expect(await answer.text()).toMatch(/"errors":\[\{"code":"[a-z-]+","field":"/);
      }
    }
  });

  it('describes them all in OpenAPI', async () => {
    const text = await (await app.request('/api/openapi.json')).text();
    for (const name of sums.keys()) expect(text).toContain(`"/api/calc/${name}"`);
  });
});
