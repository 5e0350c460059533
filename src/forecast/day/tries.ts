import type { Random } from '../../numbers/random.ts';
import type { PotJobs, Use } from './jobs.ts';
import { isAlike } from './orders.ts';
import type { Placed, PlacingInput } from './placing.ts';
import { GRID_MIN } from './rules.ts';

/** Days to try: an order of the pots, when each may begin, and who waits a little for whom. */

export interface Try {
  readonly order: readonly number[];
  /** How long after the day's first start each of them begins at the soonest, by its place in the order. */
  readonly notBefore: readonly number[];
  /** How long a job stands back at the least after the one before it, min; by its index. */
  readonly lags: ReadonlyMap<number, number>;
}

/** Tried between starts, min: own choice. */
export const APART_MIN = [10, 20, 30, 45, 60, 90, 120, 180, 240];
const MOST_LATER_MIN = 120;
const MOST_HOLDS = 40; // tried in one round: own choice, as measured

/** The same day with two pots in each other's place, or one of them begun later or sooner. */
export function varied({ order, notBefore, lags }: Try, random: Random): Try {
  const any = (): number => Math.floor(random.uniform() * order.length);
  if (random.uniform() < 0.3) {
    const [one, other] = [any(), any()];
    return { order: order.map((pot, at) => (at === one ? (order[other] ?? pot) : at === other ? (order[one] ?? pot) : pot)), notBefore, lags }; // prettier-ignore
  }
  const one = any();
  const by = Math.round(((random.uniform() * 2 - 1) * MOST_LATER_MIN) / GRID_MIN) * GRID_MIN;
  return { order, notBefore: notBefore.map((at, nth) => (nth === one ? Math.max(0, at + by) : at)), lags };
}

/**
 * The same day with the pots that begin together held back before one of their parts, just so long that another pot could come
 * on the burner first: it begins sooner then, and the day may end sooner although they wait.
 */
export function heldBackTries(from: {
  readonly from: Try;
  readonly placed: Placed;
  readonly input: PlacingInput;
}): Try[] {
  const { input, placed } = from;
  const free = from.from.order.flatMap((index) => (input.pots[index]?.pot.begunAtMin === undefined ? (input.pots[index] ?? []) : [])); // prettier-ignore
  const startOf = (pot: PotJobs): number => placed.placing.get(pot.chain[0] ?? -1)?.zeroMin ?? 0;
  const kinds = free.filter((pot, nth) => free.findIndex((other) => isAlike(other, pot)) === nth);
  const starts = [...new Set(free.map(startOf))].sort((a, b) => a - b);
  const holds = starts.flatMap((start) => {
    const together = free.filter((pot) => startOf(pot) === start);
    const [first] = together;
    if (first === undefined) return [];
    return first.chain.flatMap((_, part) => {
      const jobs = together.flatMap(({ chain }) => chain[part] ?? []);
      const minutes = kinds.flatMap((other) => minutesFor({ input, placed, pot: first, part, other }));
      return [...new Set(minutes)].map((heldMin) => jobs.map((job) => [job, heldMin] as const));
    });
  });
  const notBefore = from.from.notBefore.map(() => 0);
  return holds
    .slice(0, MOST_HOLDS)
    .map((hold): Try => ({ order: from.from.order, notBefore, lags: new Map([...from.from.lags, ...hold]) }));
}

/** How long a part of a pot would have to stand back, so that the first part of another is through with what both want. */
function minutesFor(from: {
  readonly input: PlacingInput;
  readonly placed: Placed;
  readonly pot: PotJobs;
  readonly part: number;
  readonly other: PotJobs;
}): number[] {
  const { input, placed, pot, part, other } = from;
  const usesOf = (job: number | undefined): readonly Use[] => input.jobs[job ?? -1]?.modes[0]?.uses ?? [];
  const zeroOf = (job: number | undefined): number => placed.placing.get(job ?? -1)?.zeroMin ?? 0;
  const own = pot.chain[part];
  const lag = input.jobs[own ?? -1]?.modes[0]?.lag ?? null;
  if (lag === null || lag.least > 0 || lag.most <= 0) return [];
  return usesOf(own).flatMap((use) => {
    if (use.resource === 'hands' || input.scarce.places[use.resource] === undefined) return [];
    const before = pot.chain
      .slice(0, part)
      .flatMap((job) => usesOf(job).filter(({ resource }) => resource === use.resource).map(({ toMin }) => zeroOf(job) + toMin)); // prettier-ignore
    const first = usesOf(other.chain[0]).find(({ resource }) => resource === use.resource);
    if (first === undefined || before.length === 0) return [];
    const beginMin = Math.ceil((Math.max(...before) - first.fromMin) / GRID_MIN) * GRID_MIN;
    const heldMin = beginMin + first.toMin - zeroOf(own) - use.fromMin;
    return heldMin > 0 && heldMin <= lag.most ? [heldMin] : [];
  });
}
