import { describe, expect, it } from 'vitest';
import { emptyStore } from '../../../tests/store/empty-store.ts';
import type { ServedStore } from '../../store/kept-store.ts';
import { StoreUnreachableError } from '../../store/port.ts';
import { createApp } from './app.ts';

/** A server whose store fails with this, whatever it is asked. */
function failing(error: Error): ReturnType<typeof createApp> {
  const fail = () => Promise.reject(error);
  const store: ServedStore = { ...emptyStore, listStreams: fail, streamState: fail, append: fail };
  return createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map() });
}

describe('a server whose store is away', () => {
  it('says that it will be back and when to come again, and nothing of where it is', async () => {
    const app = failing(new StoreUnreachableError(new Error('connect ECONNREFUSED 10.0.0.5:5432')));
    for (const path of ['/api/health', '/api/streams']) {
      const answer = await app.request(path);
      expect([answer.status, answer.headers.get('retry-after')]).toEqual([503, '5']);
      const text = await answer.text();
      expect(text).toContain('What was acknowledged is kept');
      expect(text).not.toContain('10.0.0.5');
    }
  });
});
