import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { emptyStore } from '../../../tests/store/empty-store.ts';
import { createApp } from './app.ts';
import { readShelf } from './make-routes.ts';

const shelf = readShelf(fileURLToPath(new URL('../../../makes', import.meta.url)));
const app = createApp({ store: emptyStore, shelf, sums: new Map() });
const ask = async (body: unknown): Promise<{ readonly status: number; readonly json: unknown }> => {
  const answer = await app.request('/api/solve', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }); // prettier-ignore
  return { status: answer.status, json: await answer.json() };
};
const asked = {
  makeId: 'stretched-ball',
  answers: { milk: { volumeL: 12 } },
  question: { aims: [{ quantity: 'saltInMoisturePercent', low: 1.9 }], free: [{ id: 'brine-minutes', high: 120 }] },
};

describe('POST /api/solve', () => {
  it('answers with settings, their chance and the answers that bring them about', async () => {
    const { status, json } = await ask(asked);
    expect(status).toBe(200);
    expect(json).toMatchObject({
      question: { aims: [{ quantity: 'saltInMoisturePercent', low: 1.9 }] },
      answer: { verdict: 'reached', members: 500, best: { answers: { milk: { volumeL: 12 }, changes: { 'brine-minutes': expect.any(Number) as unknown } } } },
    }); // prettier-ignore
  });

  it('refuses what it cannot read, naming the field', async () => {
    for (const [body, field] of [
      [null, 'makeId'],
      [{ ...asked, makeId: 'moon' }, 'makeId'],
      [{ ...asked, answers: {} }, 'milk'],
      [{ ...asked, question: { aims: [], free: [{ id: 7 }] } }, 'free[0].id'],
      [{ ...asked, question: { aims: [], free: [] } }, 'aims'],
    ] as const) {
      const { status, json } = await ask(body);
      expect([status, json]).toMatchObject([400, { errors: [{ field }, ...(field === 'aims' ? [{ field: 'free' }] : [])] }]); // prettier-ignore
    }
  });

  it('stands in the description of the API', async () => {
    expect(await (await app.request('/api/openapi.json')).text()).toContain('"/api/solve":{"post"');
  });
});
