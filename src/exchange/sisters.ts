import type { Sharing } from '../forecast/shares.ts';
import type { BatchRecord } from '../record/batch-record.ts';

/** Pots begun this far apart may be of one milking and one packet; later ones hardly are. Our own choice. */
const WITHIN_MS = 8 * 3_600_000;

/** A batch beside another, and what both have in common: things of the same name are the same. */
export interface Sister {
  readonly record: BatchRecord;
  readonly sharing: Sharing;
}

/**
 * The pots of one class or double batch, by the record: begun within eight hours of this one. Where lots are named, only the
 * same lot is the same; where neither names one, one morning's pots are taken to be of one milk, packet and bottle (whether
 * their answers agree is asked by `learnTogether`).
 *
 * @returns this batch and its sisters; this one alone where it has none
 */
export function sistersOf(input: { readonly record: BatchRecord; readonly others: readonly BatchRecord[] }): Sister[] {
  const { record, others } = input;
  const sisters = others.filter(
    (other) =>
      other.batchId !== record.batchId &&
      other.isOpened &&
      other.demo === record.demo &&
      other.steps.length > 0 &&
      Math.abs(other.zeroAt - record.zeroAt) <= WITHIN_MS,
  );
  return [record, ...sisters].map((one) => ({ record: one, sharing: sharingOf(one) }));
}

/** Nobody named it: the same for all pots of that morning. */
const UNNAMED = 'that morning’s';

function sharingOf({ answers, added, entries }: BatchRecord): Sharing {
  const lotAdded = (ingredient: string): string | undefined =>
    added.find((one) => one.ingredient === ingredient && one.lot !== undefined)?.lot;
  const begun = entries.find((entry) => entry.kind === 'stepStarted');
  return {
    milk: answers?.milk.lot ?? UNNAMED,
    packet: lotAdded('culture') ?? answers?.culture?.lot ?? UNNAMED,
    bottle: lotAdded('rennet') ?? answers?.rennet?.lot ?? UNNAMED,
    room: UNNAMED,
    // Two pots with one name at them, or one screen beside them, are made by the same hands.
    maker: begun === undefined ? UNNAMED : begun.person || begun.deviceId,
  };
}
