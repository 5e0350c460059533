/** Which store a command is about, and opening it only where there is one. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { EventStore } from '../../../store/port.ts';
import { openSqliteStore } from '../../../store/sqlite.ts';
import { ROOT } from '../catalogues.ts';
import { UsageError } from '../world.ts';

export const DATA_OPTION = { data: { type: 'string' } } as const;

/** Where events are kept: `told` may be shown, and never holds a password. */
export interface StorePlace {
  readonly engine: 'sqlite';
  readonly file: string;
  readonly told: string;
}

/** The folder that was given, else `VATSIDE_DATA`, else `.data` in the checkout. */
export function placeOf(data: string | undefined): StorePlace {
  const file = join(data ?? process.env['VATSIDE_DATA'] ?? join(ROOT, '.data'), 'vatside.sqlite');
  return { engine: 'sqlite', file, told: file };
}

/** @throws UsageError where nothing was ever kept */
export function refuseMissing(place: StorePlace): void {
  if (!existsSync(place.file)) throw new UsageError(`there is no store at ${place.file}. Name its folder with --data.`);
}

/** Opens a store for one piece of work, and closes it whatever becomes of that. */
export async function withStore<T>(
  input: { readonly place: StorePlace; readonly now: number },
  work: (store: EventStore) => Promise<T>,
): Promise<T> {
  const store = await openSqliteStore({ file: input.place.file, nowMs: input.now });
  try {
    return await work(store);
  } finally {
    await store.close();
  }
}
