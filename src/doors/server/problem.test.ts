import { describe, expect, it, vi } from 'vitest';
import { emptyStore } from '../../../tests/store/empty-store.ts';
import { notingDevice } from '../../../tests/store/sample-events.ts';
import type { ServedStore } from '../../store/kept-store.ts';
import { StoreBusyError, StoreTooNewError, StoreUnreachableError } from '../../store/port.ts';
import { createApp } from './app.ts';

/** A server whose store fails with this, whatever it is asked. */
function failing(error: Error): ReturnType<typeof createApp> {
  const fail = () => Promise.reject(error);
  const store: ServedStore = { ...emptyStore, readGrown: fail, streamState: fail, append: fail };
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

describe('a server whose store another program holds', () => {
  it('says when to come again, and not that something is broken', async () => {
    const answer = await failing(new StoreBusyError(new Error('database is locked'))).request('/api/health');
    expect([answer.status, answer.headers.get('retry-after')]).toEqual([503, '5']);
    expect(await answer.text()).toContain('Another program is writing to the store just now');
  });
});

describe('a server whose store a newer program has changed', () => {
  it('says that the newer one is to be started, so that a device keeps its notes and sends them then', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const app = failing(new StoreTooNewError({ found: 99, known: 5 }));
    const body = JSON.stringify({ events: [notingDevice('desk')('foam')] });
    const answer = await app.request('/api/events', { method: 'POST', headers: { 'content-type': 'application/json' }, body }); // prettier-ignore
    expect([answer.status, answer.headers.get('retry-after')]).toEqual([503, '60']);
    expect(await answer.text()).toMatch(/A newer Vatside has changed the store.*nothing new was kept here/);
    expect(told.mock.calls.flat().join()).toContain('format 99');
    told.mockRestore();
  });
});
