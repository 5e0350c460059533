/** The packets and bottles in this log, and how often each was used. */
import type { Event } from '../../../record/event.ts';
import { foldLot, type LotRecord } from '../../../record/lot-record.ts';
import { lotUses } from '../../../record/lot-uses.ts';
import { foldOnce } from '../log/fold-once.ts';

export interface KeptLot {
  readonly lot: LotRecord;
  /** Batches on record that were made with it. */
  readonly uses: number;
}

/** What is in the house: received, not taken back, not used up; in the order of their names. */
export function keptLots(streams: ReadonlyMap<string, readonly Event[]>): readonly KeptLot[] {
  const of = (type: string): (readonly Event[])[] => [...streams].flatMap(([id, events]) => (id.startsWith(`${type}:`) ? [events] : [])); // prettier-ignore
  const uses = lotUses(of('batch').map(foldOnce));
  return of('lot')
    .map(foldLot)
    .filter((lot) => lot.isReceived && lot.usedUpOn === null)
    .map((lot) => ({ lot, uses: uses.get(lot.lotId) ?? 0 }))
    .sort((a, b) => a.lot.name.localeCompare(b.lot.name));
}
