import type { Piece } from './bound.ts';
import type { Scarce } from './profile.ts';
import { GRID_MIN, RESOURCES } from './rules.ts';

/**
 * The soonest end of pots that must share something of which there is one: from each pot to the next to begin, at least the
 * least time apart at which the two do not want it together. The shortest chain of such times through all pots, by dynamic
 * programming over which pots have begun and which began last (Held and Karp 1962).
 */
export function boundInTurn(pieces: readonly Piece[], scarce: Scarce): number {
  const free = pieces.filter(({ pot }) => pot.pot.begunAtMin === undefined);
  if (free.length < 2 || free.length > MOST_POTS) return Number.NEGATIVE_INFINITY;
  const apart = free.map((one) => free.map((other) => leastApart(one, other, scarce)));
  const count = free.length;
  // soonest[set][last]: the soonest that `last` can begin, all of `set` begun by then.
  const soonest = Array.from({ length: 1 << count }, () => new Float64Array(count).fill(Number.POSITIVE_INFINITY));
  for (const [index, { earliestMin }] of free.entries()) {
    const alone = soonest[1 << index];
    if (alone !== undefined) alone[index] = earliestMin;
  }
  for (let set = 1; set < 1 << count; set++) {
    for (let last = 0; last < count; last++) {
      const at = soonest[set]?.[last] ?? Number.POSITIVE_INFINITY;
      if (!Number.isFinite(at)) continue;
      for (let next = 0; next < count; next++) {
        const beyond = soonest[set | (1 << next)];
        if ((set & (1 << next)) !== 0 || beyond === undefined) continue;
        const begins = Math.max(at + (apart[last]?.[next] ?? 0), free[next]?.earliestMin ?? 0);
        beyond[next] = Math.min(beyond[next] ?? begins, begins);
      }
    }
  }
  const all = soonest[(1 << count) - 1] ?? new Float64Array(0);
  return Math.min(...free.map(({ doneMin }, index) => (all[index] ?? Number.POSITIVE_INFINITY) + doneMin));
}

const MOST_POTS = 8; // sets of pots double with each: own choice
const LONGEST_APART_MIN = 24 * 60;

/** The least time, a whole number of grid steps, by which one pot can begin after another; pots without a common want, 0. */
function leastApart(one: Piece, other: Piece, scarce: Scarce): number {
  const single = RESOURCES.filter(
    (resource) => scarce.places[resource] === 1 && !(resource === 'hands' && scarce.more !== undefined),
  );
  const wants = single.map((resource) =>
    [one, other].map(({ parts }) => parts.filter((part) => part.resource === resource)),
  );
  for (let apart = 0; apart < LONGEST_APART_MIN; apart += GRID_MIN) {
    const meets = wants.some(([mine = [], theirs = []]) =>
      mine.some((a) => theirs.some((b) => a.fromMin < b.toMin + apart && b.fromMin + apart < a.toMin)),
    );
    if (!meets) return apart;
  }
  return 0;
}
