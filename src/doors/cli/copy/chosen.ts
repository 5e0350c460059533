/** Which store a command is about, and opening it only where there is one. */
import { existsSync } from 'node:fs';
import type { EventStore } from '../../../store/port.ts';
import { chosenStore, openStore, type StoreAt } from '../../server/open-store.ts';
import { UsageError } from '../world.ts';

export const DATA_OPTION = { data: { type: 'string' } } as const;

/** The folder that was given; else what the environment names, as for `vatside serve`. */
export const storeAt = (data: string | undefined): StoreAt =>
  chosenStore({ ...(data === undefined ? {} : { dataDir: data }), environment: process.env });

/** @throws UsageError where nothing was ever kept */
export function refuseMissing(at: StoreAt): void {
  if (at.engine === 'sqlite' && !existsSync(at.file)) throw new UsageError(`there is no store at ${at.file}. Name its folder with --data.`); // prettier-ignore
}

/** Opens a store for one piece of work, and closes it whatever becomes of that. */
export async function withStore<T>(
  input: { readonly at: StoreAt; readonly now: number },
  work: (store: EventStore) => Promise<T>,
): Promise<T> {
  const store = await openStore({ at: input.at, nowMs: input.now });
  try {
    return await work(store);
  } finally {
    await store.close();
  }
}
