import type { History } from '../make/history.ts';

/** Where each reading and judgement stood in an earlier history; -1 for those that are new. */
export interface NewNotes {
  readonly readings: readonly number[];
  readonly judgements: readonly number[];
}

/**
 * What was noted between two histories of one make, where that is all that happened and none of it moves the vat: judgements,
 * ice tests and pH. Null where anything else did, or where something was taken back.
 */
export function newNotes({ before, now }: { before: History; now: History }): NewNotes | null {
  const rest = ({ steps, additions, disturbances = [], assumedFromMin }: History): string =>
    JSON.stringify([steps, additions, disturbances, assumedFromMin]);
  if (rest(before) !== rest(now) || now.assumedFromMin !== undefined || now.nowMin < before.nowMin) return null;
  const readings = placesBefore(before.readings, now.readings);
  const judgements = placesBefore(before.judgements, now.judgements);
  if (readings === null || judgements === null) return null;
  const moves = now.readings.some(
    ({ quantity }, i) => readings[i] === -1 && quantity !== 'pH' && quantity !== 'iceWaterC',
  );
  return moves ? null : { readings, judgements };
}

/** For each of the later notes its place among the earlier, -1 where it is new; null where one of the earlier is gone. */
function placesBefore(earlier: readonly object[], later: readonly object[]): number[] | null {
  const texts = earlier.map((note) => JSON.stringify(note));
  let next = 0;
  const places = later.map((note) => (JSON.stringify(note) === texts[next] ? next++ : -1));
  return next === texts.length ? places : null;
}
