import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Pause } from './get-ready.ts';

/** How much is asked before the make: everything, or only what is new every time. */
export type ReadyPath = 'full' | 'short';

/** Item of the `prepared` event that keeps the path; its unit is the path. */
export const PATH_ITEM = 'path';

/** What stays right from one make to the next unless pot, packet or bottle changed. Never hygiene, never hot water. */
const STANDING = ['milk.carton', 'milk.pot', 'culture.packet', 'rennet.bottle', 'rennet.blade'] as const;
type StandingItem = (typeof STANDING)[number];

export interface ReadyList {
  readonly path: ReadyPath;
  readonly pauses: readonly Pause[];
  /** How many items the short path leaves out. */
  readonly leftOut: number;
  /** When the make was made that they are unchanged since; null where there is none. */
  readonly sinceAt: number | null;
}

/** The last finished make of this cheese in this kitchen before this one; null where it is the first. */
export function madeBefore(input: {
  readonly record: BatchRecord;
  readonly others: readonly BatchRecord[];
}): BatchRecord | null {
  const { record, others } = input;
  const earlier = others.filter(
    (other) =>
      other.batchId !== record.batchId &&
      other.demo === record.demo &&
      other.finishedAt !== null &&
      other.zeroAt < record.zeroAt &&
      other.make?.['id'] === record.make?.['id'],
  );
  return earlier.sort((a, b) => b.zeroAt - a.zeroAt)[0] ?? null;
}

/**
 * The pauses of a make by the path that was chosen: after a make before it the short one, else the full one.
 * The short path leaves out what was ticked then and has not changed since; chosen at a first make, all that is not new each time.
 */
export function readyList(input: {
  readonly pauses: readonly Pause[];
  readonly record: BatchRecord;
  readonly before: BatchRecord | null;
}): ReadyList {
  const { pauses, record, before } = input;
  const chosen = record.prepared.findLast((one) => one.item === PATH_ITEM)?.unit;
  const path: ReadyPath = chosen === 'full' || chosen === 'short' ? chosen : before === null ? 'full' : 'short';
  const leaves = new Set<string>(
    before === null ? STANDING : STANDING.filter((item) => isUnchanged(item, record, before)),
  );
  const kept = pauses.map((pause) => ({ ...pause, items: pause.items.filter((item) => !leaves.has(item.id)) }));
  const leftOut = pauses.reduce((sum, pause, index) => sum + pause.items.length - (kept[index]?.items.length ?? 0), 0);
  const sinceAt = before?.zeroAt ?? null;
  return path === 'full'
    ? { path, pauses, leftOut, sinceAt }
    : { path, pauses: kept.filter(({ items }) => items.length > 0), leftOut, sinceAt };
}

/** Ticked then, and what it was ticked for is the same now. A carton is a new one every time. */
function isUnchanged(item: StandingItem, record: BatchRecord, before: BatchRecord): boolean {
  if (!before.prepared.some((one) => one.item === item && one.unit !== 'left out')) return false;
  const [now, then] = [record.answers, before.answers];
  switch (item) {
    case 'milk.carton':
      return false;
    case 'milk.pot':
      return JSON.stringify(now?.pot ?? null) === JSON.stringify(then?.pot ?? null) && now?.milk.volumeL === then?.milk.volumeL; // prettier-ignore
    case 'culture.packet':
      return now?.culture?.lot !== undefined && now.culture.lot === then?.culture?.lot;
    case 'rennet.bottle':
      return now?.rennet?.lot !== undefined && now.rennet.lot === then?.rennet?.lot;
    case 'rennet.blade':
      return true;
  }
}
