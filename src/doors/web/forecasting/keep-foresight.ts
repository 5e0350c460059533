import type { Forecast } from '../../../forecast/forecast.ts';
import { earlierOf, opened, type Earlier } from '../vat/foresight-store.ts';
import type { ToKeep } from './forecast-messages.ts';

/** Batches kept; a class has six pots, and one more day beside it. */
const MOST = 12;

/** What was foreseen at earlier moments and is not written yet, by batch. */
const owed = new Map<string, Earlier>();
/** Batches whose place has been looked after. */
const placed = new Set<string>();

/** Keeps what is foreseen now in the place of what was, and drops the oldest of other batches. Never fails. */
export async function keepForesight(input: ToKeep & { readonly forecast: Forecast }): Promise<void> {
  const { streamId, version, writtenAt, forecast, earlier } = input;
  if (earlier !== null) owed.set(streamId, { streamId: earlierOf(streamId), version, writtenAt, ...earlier });
  const due = owed.get(streamId);
  try {
    const { store, done } = (await opened()).transaction('foresights', 'readwrite');
    const puts = [store.put({ streamId, version, writtenAt, forecast })];
    if (due !== undefined) puts.push(store.put(due));
    await Promise.all([...puts, done]);
    if (owed.get(streamId) === due) owed.delete(streamId);
    if (placed.has(streamId)) return;
    placed.add(streamId);
    await dropOldest();
  } catch (error) {
    // A full or closed storage only means that the next opening waits for its forecast.
    console.warn('What is foreseen could not be kept.', error);
  }
}

async function dropOldest(): Promise<void> {
  const db = await opened();
  const all = await db.getAll('foresights');
  const batches = all.filter((one) => 'forecast' in one).sort((a, b) => b.writtenAt - a.writtenAt);
  const staying = new Set(batches.slice(0, MOST).flatMap(({ streamId }) => [streamId, earlierOf(streamId)]));
  const old = all.filter(({ streamId }) => !staying.has(streamId));
  await Promise.all(old.map(({ streamId }) => db.delete('foresights', streamId)));
}
