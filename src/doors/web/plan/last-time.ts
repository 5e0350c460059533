import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Event } from '../../../record/event.ts';
import { foldOnce } from '../log/fold-once.ts';

/**
 * The cause whose change the last make of a cheese left for the next one; a later make of it, with or without a word, ends that.
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
  const [last] = [...(own.length > 0 ? own : made)].sort((a, b) => b.zeroAt - a.zeroAt);
  const cause = last?.nextTime.at(-1)?.cause ?? '';
  return cause === '' ? null : cause;
}

const makeIdOf = ({ make }: BatchRecord): unknown => make?.['id'];
