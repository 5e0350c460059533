import { describe, expect, it } from 'vitest';
import type { NamedStore } from '../../src/store/identity.ts';

/** Which store it is, on every engine that a server can have. */
export function identityContract(
  name: string,
  newPlace: () => { open(): Promise<NamedStore>; remove(): Promise<void> },
): void {
  describe(`which store it is, in ${name}`, () => {
    it('is the same whenever it is opened, and another for another store', async () => {
      const [place, elsewhere] = [newPlace(), newPlace()];
      const identities: string[] = [];
      for (const opening of [place, place, elsewhere]) {
        const store = await opening.open();
        identities.push(await store.identity());
        await store.close();
      }
      const [first, again, other] = identities;
      expect(first).toMatch(/^[\da-f-]{36}$/);
      expect(again).toBe(first);
      expect(other).not.toBe(first);
      await Promise.all([place.remove(), elsewhere.remove()]);
    });
  });
}
