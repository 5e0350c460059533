import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Event } from '../../../record/event.ts';
import { foldOnce } from '../log/fold-once.ts';

/** The pots of the screen: those under way or made ready, and those of the same class that are over. */
export interface WhichPots {
  readonly running: readonly BatchRecord[];
  readonly over: readonly BatchRecord[];
}

/** Pots in the order in which they begin. The worked example stands aside as soon as there is a pot of the maker's own. */
export function whichPots(streams: ReadonlyMap<string, readonly Event[]>): WhichPots {
  const records = [...streams]
    .filter(([id]) => id.startsWith('batch:'))
    .map(([, events]) => foldOnce(events))
    .filter(({ isOpened }) => isOpened);
  const open = records.filter(({ finishedAt }) => finishedAt === null);
  const own = open.filter(({ demo }) => !demo);
  const running = (own.length > 0 ? own : open).toSorted(inOrder);
  const ids = new Set(running.map(({ batchId }) => batchId));
  const classes = new Set(running.flatMap(({ together }) => (together === null ? [] : [together.id])));
  const over = records.filter(
    ({ finishedAt, together, joined }) =>
      finishedAt !== null &&
      ((together !== null && classes.has(together.id)) ||
        joined.some(({ way, pot }) => way === 'gave' && ids.has(pot))),
  );
  return { running, over: over.toSorted(inOrder) };
}

/** By start, then by the place in the class. */
function inOrder(a: BatchRecord, b: BatchRecord): number {
  return a.zeroAt - b.zeroAt || (a.together?.nth ?? 0) - (b.together?.nth ?? 0) || (a.batchId < b.batchId ? -1 : 1);
}

/** When something was last heard of a pot that another device keeps; null where this device noted last. */
export function heardFrom(input: { readonly record: BatchRecord; readonly deviceId: string }): number | null {
  const last = input.record.entries.reduce<BatchRecord['entries'][number] | null>(
    (latest, entry) => (latest === null || entry.loggedAt >= latest.loggedAt ? entry : latest),
    null,
  );
  return last === null || last.deviceId === input.deviceId ? null : last.loggedAt;
}
