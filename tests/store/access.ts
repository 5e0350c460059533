import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { PairedDevice, SharedStore } from '../../src/store/access.ts';

/** A place that stores with access can be opened in again and again. */
export interface SharedPlace {
  open(): Promise<SharedStore>;
  remove(): Promise<void>;
}

const T0 = 1_790_000_000_000;
const phone: PairedDevice = { id: 'p1', name: 'Phone by the sink', role: 'helper', secretHash: 'a'.repeat(64), pairedAt: T0, seenAt: T0, logDevice: 'device-1' }; // prettier-ignore
const script: PairedDevice = { ...phone, id: 'p0', name: 'Probe', role: 'reader', pairedAt: T0 + 1, logDevice: null };

/** What every driver promises of who may ask; run once for each. */
export function accessContract(name: string, newPlace: () => SharedPlace): void {
  describe(`who may ask, kept by the ${name} store`, () => {
    let place: SharedPlace;
    let store: SharedStore;
    beforeEach(async () => {
      place = newPlace();
      store = await place.open();
    });
    afterEach(async () => {
      await store.close();
      await place.remove();
    });

    it('knows the devices that were paired, the first one first, also after it was opened again', async () => {
      await store.access.add(phone);
      await store.access.add(script);
      await store.close();
      store = await place.open();
      expect(await store.access.list()).toEqual([phone, script]);
      expect(await store.access.find('p0')).toEqual(script);
      expect(await store.access.find('p2')).toBeNull();
    });

    it('lets no second device take the id of the first', async () => {
      await store.access.add(phone);
      await expect(store.access.add({ ...phone, name: 'Another', secretHash: 'b'.repeat(64) })).rejects.toThrow();
      expect(await store.access.list()).toEqual([phone]);
    });

    it('remembers when a device was last heard, never an earlier time', async () => {
      await store.access.add(phone);
      await store.access.seen({ id: 'p1', at: T0 + 60_000 });
      await store.access.seen({ id: 'p1', at: T0 + 30_000 });
      await store.access.seen({ id: 'nobody', at: T0 });
      expect((await store.access.find('p1'))?.seenAt).toBe(T0 + 60_000);
    });

    it('forgets a device whose access was taken away, once, and no event with it', async () => {
      await store.access.add(phone);
      expect(await store.access.remove('p1')).toBe(true);
      expect(await store.access.remove('p1')).toBe(false);
      expect(await store.access.list()).toEqual([]);
    });
  });
}
