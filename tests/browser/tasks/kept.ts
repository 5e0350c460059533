import type { Page } from 'playwright-core';

/** One event as the device keeps it. */
export interface Kept {
  readonly id: string;
  readonly streamId: string;
  readonly kind: string;
  readonly body: Readonly<Record<string, unknown>>;
}

/** Everything that this device keeps, in the order in which it came: what no screen can hide. */
export const keptEvents = (page: Page): Promise<Kept[]> =>
  page.evaluate(
    () =>
      new Promise<Kept[]>((resolve, reject) => {
        const opening = indexedDB.open('vatside');
        opening.addEventListener('error', () => reject(opening.error ?? new Error('the store does not open')));
        opening.addEventListener('success', () => {
          const db = opening.result;
          const reading = db.transaction('events').objectStore('events').getAll();
          reading.addEventListener('error', () => reject(reading.error ?? new Error('the store cannot be read')));
          reading.addEventListener('success', () => {
            db.close();
            resolve((reading.result as { event: Kept }[]).map(({ event: { id, streamId, kind, body } }) => ({ id, streamId, kind, body }))); // prettier-ignore
          });
        });
        interface Kept {
          readonly id: string;
          readonly streamId: string;
          readonly kind: string;
          readonly body: Readonly<Record<string, unknown>>;
        }
      }),
  );
