import { burnersOf, handsOf, later, type Busy, type PotOnClock } from './busy.ts';
import { WALKING_ALONE } from './class-kit.ts';

const MINUTE_MS = 60_000;

/** A time in which more is wanted than there is, always by the same wants. */
export interface Overload {
  readonly fromAt: number;
  readonly toAt: number;
  /** Pots that want it, in the order given; a pot that wants two stands once. */
  readonly potIds: readonly string[];
  readonly wanted: number;
}

/** A clash of hands or burners between pots, by the likeliest times. */
export interface Collision extends Overload {
  readonly kind: 'hands' | 'burners';
  /** The step of each pot that wants it, in the order of `potIds`. */
  readonly stepIds: readonly string[];
}

/**
 * Every stretch of time in which more things are wanted than there are.
 * @param places how many there are
 * @returns in time order; neighbours differ in who wants
 */
export function overloads(busy: readonly Busy[], places: number): Overload[] {
  const moments = [...new Set(busy.flatMap(({ fromAt, toAt }) => [fromAt, toAt]))].sort((a, b) => a - b);
  const order = [...new Set(busy.map(({ potId }) => potId))];
  const starts = [...busy].sort((a, b) => a.fromAt - b.fromAt);
  const found: Overload[] = [];
  let here: Busy[] = [];
  let started = 0;
  for (const [index, fromAt] of moments.entries()) {
    const toAt = moments[index + 1];
    if (toAt === undefined) break;
    here = here.filter((one) => one.toAt > fromAt);
    for (let next = starts[started]; next !== undefined && next.fromAt <= fromAt; next = starts[started]) {
      started += 1;
      if (next.toAt > fromAt) here.push(next);
    }
    const wanted = new Set(here.map(({ want }) => want)).size;
    if (wanted <= places) continue;
    const potIds = order.filter((id) => here.some(({ potId }) => potId === id));
    const last = found.at(-1);
    const isSame = last !== undefined && last.toAt === fromAt && last.wanted === wanted && last.potIds.join() === potIds.join(); // prettier-ignore
    if (isSame) found[found.length - 1] = { ...last, toAt };
    else found.push({ fromAt, toAt, potIds, wanted });
  }
  return found;
}

/** All clashes still to come, in time order; of hands and of burners. */
export function collisionsOf(input: {
  readonly pots: readonly PotOnClock[];
  /** How many burners there are; null while nobody has said. */
  readonly burners: number | null;
  /** Pairs of hands; one maker's where left out. */
  readonly hands?: number;
  readonly nowAt: number;
}): Collision[] {
  const { pots, burners, hands: there = WALKING_ALONE, nowAt } = input;
  const hands = pots.flatMap(handsOf);
  const fires = pots.flatMap(burnersOf);
  const named =
    (kind: Collision['kind'], busy: readonly Busy[]) =>
    (one: Overload): Collision => ({
      ...one,
      kind,
      stepIds: one.potIds.map((id) => busy.find((want) => want.potId === id && want.fromAt <= one.fromAt && want.toAt > one.fromAt)?.stepId ?? ''), // prettier-ignore
    });
  return [
    ...overloads(hands, there).map(named('hands', hands)),
    ...(burners === null ? [] : overloads(fires, burners).map(named('burners', fires))),
  ]
    .filter(({ toAt }) => toAt > nowAt)
    .sort((a, b) => a.fromAt - b.fromAt);
}

/** A pot is not asked to wait longer than this for others: then another plan is the answer. Our own choice. */
const LONGEST_WAIT_MIN = 60;

/** Starting one pot later, so that a clash goes away. */
export interface LaterStart {
  readonly potId: string;
  readonly minutes: number;
}

/**
 * The least delay of a pot not begun that takes it out of one clash and leaves fewer clashing minutes altogether.
 * @param input.waiting pots that have not begun
 * @returns one a pot that can help; empty where none can
 */
export function laterStarts(input: {
  readonly collision: Collision;
  readonly pots: readonly PotOnClock[];
  readonly waiting: ReadonlySet<string>;
  readonly burners: number | null;
  readonly hands?: number;
  readonly nowAt: number;
}): LaterStart[] {
  const { collision, pots, waiting } = input;
  const before = minutesOf(collisionsOf(input));
  return collision.potIds
    .filter((id) => waiting.has(id))
    .flatMap((potId) => {
      for (let minutes = 1; minutes <= LONGEST_WAIT_MIN; minutes++) {
        const moved = collisionsOf({ ...input, pots: pots.map((pot) => (pot.potId === potId ? later(pot, minutes) : pot)) }); // prettier-ignore
        const isStill = moved.some(
          (one) =>
            one.kind === collision.kind &&
            one.potIds.includes(potId) &&
            one.fromAt < collision.toAt &&
            one.toAt > collision.fromAt,
        );
        if (!isStill && minutesOf(moved) < before) return [{ potId, minutes }];
      }
      return [];
    });
}

const minutesOf = (collisions: readonly Collision[]): number =>
  collisions.reduce((sum, { fromAt, toAt }) => sum + (toAt - fromAt) / MINUTE_MS, 0);
