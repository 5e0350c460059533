import { measureCopying, type CopyingFound } from '../load/copying.ts';
import { measureGrowth, type GrownFound } from '../load/grown.ts';
import { keepGrowth } from '../load/results.ts';
import { ASKED, type Asked } from '../load/store-measures.ts';
import { TOLD } from '../load/told.ts';
import type { FaultPart, Figure } from './part.ts';

const SIZES = [1000, 10_000, 100_000];
const ROUNDS = 60;
/** Copied, written out and taken in again: one in ten of the largest store, whose way through text and back takes too long to wait for. */
const COPIED = [1000, 10_000];
/** What a maker asks for, and waits for. */
const PROMISED: readonly Asked[] = ['open', 'list', 'older', 'compare', 'search', 'rareSearch'];
const MOST_P95_MS = 100;

export const growth: FaultPart = {
  name: 'growth',
  title: 'A store of many years',
  shows:
    'One SQLite store with 1,000, then 10,000, then 100,000 batches of fifty events each (5 million), invented for Larkenshaw from a ' +
    'seed, and the real server on it. A maker opens a batch, lists the newest and older ones, reads four of one make to compare them, ' +
    'searches by name, lot, make and words of a note, also for what is hardly there or not at all, and adds a note to an old batch. ' +
    'Each answer is held to what it must be. Promised: 95 of 100 within 100 ms for each, at every size. Beside that, stores of 1,000 and ' +
    '10,000 batches are copied (`backup`), written out as text (`export --all`) and taken into an empty store (`import`), which must ' +
    'write out the same text.\n\n' +
    '![Times at 1,000, 10,000 and 100,000 batches](reliability/growth.svg)',
  showsNot:
    'a cold machine: the file lies in the system’s memory after it was written, as far as it fits. One client asks at a time. ' +
    'Times go from the request to the answer read and checked, in a process beside the server.',
  async run({ seed, share, folder, isKept, tell }) {
    const sizes = SIZES.filter((size) => size <= Math.max(SIZES[0] ?? 0, 100_000 * share));
    const found = await measureGrowth({ sizes, folder, rounds: ROUNDS, seed, tell });
    keepGrowth(found, isKept);
    const failures = found.flatMap(({ batches, wrong, times }) => [
      ...wrong.map((what) => `${batches} batches: ${what}`),
      ...PROMISED.filter((name) => times[name].p95 > MOST_P95_MS).map((name) => `${batches} batches: ${TOLD[name]} took ${times[name].p95} ms for 95 of 100; promised ${MOST_P95_MS}`), // prettier-ignore
    ]);
    const copied: CopyingFound[] = [];
    for (const batches of COPIED.filter((size) => size <= Math.max(...sizes)))
      copied.push(await measureCopying({ batches, folder, seed }));
    failures.push(...copied.flatMap(({ wrong }) => wrong));
    return { figures: [...found.flatMap(figuresOf), ...copied.flatMap(copiedFigures)], lost: 0, duplicated: 0, corrupt: 0, failures }; // prettier-ignore
  },
};

function figuresOf({ batches, events, fileMb, relistingS, servedMs, highestMb, times }: GrownFound): Figure[] {
  const of = `${batches.toLocaleString('en-GB')} batches`;
  return [
    { name: `${of}: events`, value: events },
    { name: `${of}: file`, value: fileMb, unit: 'MB' },
    { name: `${of}: list of batches made anew`, value: relistingS, unit: 's' },
    { name: `${of}: from the start of the server to its first answer`, value: servedMs, unit: 'ms' },
    ...(highestMb === null ? [] : [{ name: `${of}: most memory of the server`, value: highestMb, unit: 'MB' }]),
    ...ASKED.map((name) => ({ name: `${of}: ${TOLD[name]}, 95 of 100 within`, value: times[name].p95, unit: 'ms' })),
  ];
}

function copiedFigures({ events, backupS, exportS, importS }: CopyingFound): Figure[] {
  const of = `${events.toLocaleString('en-GB')} events`;
  return [
    { name: `${of}: copied by backup`, value: backupS, unit: 's' },
    { name: `${of}: written out as text and tables`, value: exportS, unit: 's' },
    { name: `${of}: taken into an empty store`, value: importS, unit: 's' },
  ];
}
