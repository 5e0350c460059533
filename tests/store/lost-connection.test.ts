import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { newEvent, type DeviceState } from '../../src/record/new-event.ts';
import { openBrowserStore } from '../../src/store/browser.ts';

/** A reading of the whey, noted by the device that is handed in. */
function whey(text: string) {
  return (device: DeviceState) => {
    const made = newEvent({ kind: 'noted', body: { text }, streamId: 'batch:ash', happenedAt: 5, loggedAt: 5, person: 'M', device, randomBytes: crypto.getRandomValues(new Uint8Array(10)) }); // prettier-ignore
    return { events: [made.event], device: made.device };
  };
}

/** The browser fails the next transactions of this kind so many times, with this name. */
function failing(name: string, times: number): void {
  const opening = vi.spyOn(IDBDatabase.prototype, 'transaction');
  for (let left = times; left > 0; left--) {
    opening.mockImplementationOnce(() => {
      throw new DOMException('The connection was lost.', name);
    });
  }
}

describe('a tablet that woke beside the vat with its storage gone from under it', () => {
  afterEach(() => void vi.restoreAllMocks());

  it.each(['InvalidStateError', 'AbortError', 'UnknownError'])(
    'keeps the note over a new connection after %s, once and in its order',
    async (name) => {
      const store = await openBrowserStore({ name: `vatside-lost-${name}`, newDeviceId: 'tablet' });
      await store.writeOwn(whey('sweet'));
      failing(name, 1);
      await store.writeOwn(whey('a little sour'));
      const kept = await store.readAll({ after: 0 });
      expect(kept.map(({ event }) => [event.deviceSeq, event.body])).toEqual([
        [0, { text: 'sweet' }],
        [1, { text: 'a little sour' }],
      ]);
      expect(await store.outboxSize()).toBe(2);
    },
  );

  it('says so where the new connection fails too', async () => {
    const store = await openBrowserStore({ name: 'vatside-lost-twice', newDeviceId: 'tablet' });
    failing('UnknownError', 2);
    await expect(store.writeOwn(whey('sweet'))).rejects.toThrow('The connection was lost.');
    vi.restoreAllMocks();
    expect(await store.readAll({ after: 0 })).toEqual([]);
  });

  it('says at once that the disk is full', async () => {
    const store = await openBrowserStore({ name: 'vatside-full', newDeviceId: 'tablet' });
    failing('QuotaExceededError', 1);
    await expect(store.writeOwn(whey('sweet'))).rejects.toMatchObject({ name: 'QuotaExceededError' });
  });
});
