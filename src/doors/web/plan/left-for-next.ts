import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Event } from '../../../record/event.ts';
import { foldOnce } from '../log/fold-once.ts';

/**
 * The cause whose change was carried from a make of this cheese into the next one; a make of it that was opened since ends that.
 * The worked example speaks only where nothing else was made of it.
 * @returns null where nothing was left
 */
export function leftForNext(input: {
  readonly streams: ReadonlyMap<string, readonly Event[]>;
  readonly makeId: string;
}): string | null {
  const made = [...input.streams]
    .filter(([id]) => id.startsWith('batch:'))
    .map(([, events]) => foldOnce(events))
    .filter((record) => makeIdOf(record) === input.makeId);
  const own = made.filter(({ demo }) => !demo);
  const records = own.length > 0 ? own : made;
  const [left] = records
    .flatMap((record) => {
      const last = record.nextTime.at(-1);
      return last === undefined ? [] : [last];
    })
    .sort((a, b) => b.at - a.at);
  if (left === undefined || left.cause === '') return null;
  return records.some((record) => openedAt(record) > left.at) ? null : left.cause;
}

const makeIdOf = ({ make }: BatchRecord): unknown => make?.['id'];
const openedAt = ({ entries }: BatchRecord): number => entries.find(({ kind }) => kind === 'batchOpened')?.at ?? 0;
