/** What a search looks for between the bounds, and the ways worth telling beside the best. */
import { START, type Answer, type Obstacle, type Way, type WayKind } from './question.ts';
import { cheapest, type Place } from './solve-search.ts';
import type { Standing } from './solve-surface.ts';
import type { Look, Trials } from './solve-trials.ts';

export const MARGIN = 0.02; // looked for above what is wanted, because what was searched for always looks a little better than it is
export const TOLD_APART = 0.01; // a share this little below the wanted one is the wanted one
const WORTH_MIN = 10; // an earlier end worth telling
const WORTH_SHARE = 0.04; // a surer way worth telling
const SURE = 0.97; // our own choice

export type Verify = (at: readonly number[], seed: number) => Way;

export interface Wide extends Look {
  readonly places: readonly Place[];
}

export interface Finding {
  readonly trials: Trials;
  readonly wide: Wide;
  readonly wanted: number;
  readonly verify: Verify;
  readonly seed: number;
}

const EACH_CHANGE = 0.1; // of a whole range, for a thing to be changed at all: our own choice
/** Ranges left of the way, summed over the inputs, and a little for each that is touched. */
const changeTo = (trials: Trials, at: readonly number[]): number =>
  at.reduce((sum, x, axis) => {
    const far = Math.abs(x - (trials.home[axis] ?? 0)) / 2;
    return far < 1e-6 ? sum : sum + far + EACH_CHANGE;
  }, 0);

const ASIDE = 1000;
/** Falls with the share; where hardly any member meets all aims, what comes nearest decides. */
export const missing = (share: number): number => -Math.log(share + HARDLY_ANY);
const HARDLY_ANY = 0.05; // of the members: our own choice

/** Least change where the goal is reached; before that, whatever comes nearer to it. */
export const changeFor =
  (trials: Trials, goal: number) =>
  ({ at, standing }: Place): number =>
    standing.share >= goal
      ? changeTo(trials, at)
      : ASIDE + missing(standing.share) + 0.5 * standing.miss + 0.02 * changeTo(trials, at);

/** Sooner done, or surer, where either is worth telling. */
export function otherWays(input: Finding & { readonly found: Way }): Answer['others'] {
  const { trials, wide, wanted, found, verify, seed } = input;
  const goal = wanted + MARGIN;
  const at = (cost: (place: Place) => number): Way => verify(cheapest({ ...wide, starts: wide.places, cost }).at, seed + 1); // prettier-ignore
  const soonest = at(({ at: place, standing }) => (standing.share >= goal ? standing.endMin + changeTo(trials, place) : ASIDE * (1 + missing(standing.share)))); // prettier-ignore
  // As sure as it gets, or nearly certain: nobody starts in the night for the last makes in a hundred.
  const most = Math.min(SURE, wide.places.reduce((top, { standing }) => Math.max(top, standing.share), 0) - MARGIN / 2);
  const surest = at(changeFor(trials, most));
  // A start moved to the night before is no make that is done sooner.
  const movesStart = trials.axes.some((axis) => axis.id === START);
  const isSooner =
    !movesStart && soonest.endMin.p50 <= found.endMin.p50 - WORTH_MIN && soonest.probability >= wanted - TOLD_APART;
  const isSurer = surest.probability >= found.probability + WORTH_SHARE;
  return [
    ...(isSooner ? [{ kind: 'soonest' as WayKind, way: soonest }] : []),
    ...(isSurer ? [{ kind: 'surest' as WayKind, way: surest }] : []),
  ];
}

/** Where two aims fight: the settings that serve the one in the way, and those that serve the rest. */
export function sides(input: Finding & { readonly obstacle: Obstacle | null; readonly found: Way }): Answer['others'] {
  const { trials, wide, obstacle, found, verify, seed } = input;
  if (obstacle === null || trials.aims.length < 2) return [];
  const { aim } = obstacle;
  const at = (cost: (one: Standing) => number): Way => verify(cheapest({ ...wide, starts: wide.places, cost: (place) => cost(place.standing) + 0.02 * changeTo(trials, place.at) }).at, seed + 1); // prettier-ignore
  const own = ({ alone }: Standing): number => missing(alone[aim] ?? 0);
  const rest = ({ without }: Standing): number => missing(without[aim] ?? 0);
  const forThis = at((one) => own(one) + 0.3 * rest(one));
  const forOthers = at((one) => 0.3 * own(one) + rest(one));
  const gains = (way: Way, of: 'probability' | 'others'): boolean => (way.aims[aim]?.[of] ?? 0) >= (found.aims[aim]?.[of] ?? 0) + WORTH_SHARE; // prettier-ignore
  return [
    ...(gains(forThis, 'probability') ? [{ kind: 'for-this-aim' as WayKind, way: forThis }] : []),
    ...(gains(forOthers, 'others') ? [{ kind: 'for-the-others' as WayKind, way: forOthers }] : []),
  ];
}

/** More members inside, or, where hardly any are, the middle of the aims nearer to their ranges. */
export function comesNearer(trials: Trials, from: Way, to: Way): boolean {
  if (Math.max(from.probability, to.probability) > HARDLY_ANY) return to.probability > from.probability + TOLD_APART;
  const off = (way: Way): number =>
    trials.aims.reduce((sum, { low, high }, index) => {
      const spread = way.aims[index]?.spread;
      return spread === undefined ? sum : sum + Math.max(low - spread.p50, spread.p50 - high, 0) / Math.max(spread.p95 - spread.p5, 1e-9); // prettier-ignore
    }, 0);
  return off(to) < off(from) - TOLD_APART;
}

/** Which aim stands in the way: one that not even alone comes far enough, else the one that the others gain most without. */
export function obstacleOf({ trials, wide, wanted, verify, seed }: Finding): Obstacle | null {
  const most = (of: (place: Place) => number): Place => cheapest({ ...wide, starts: wide.places, cost: (place) => missing(of(place)) }); // prettier-ignore
  const alone = trials.aims.map((_, aim) => most(({ standing }) => standing.alone[aim] ?? 0));
  const shares = alone.map((place, aim) => place.standing.alone[aim] ?? 0);
  const least = shares.indexOf(Math.min(...shares));
  const place = alone[least];
  if (place === undefined) return null;
  if (trials.aims.length === 1 || (shares[least] ?? 0) < wanted) {
    const way = verify(place.at, seed + 1);
    return { aim: least, kind: 'out-of-reach', way, probability: way.aims[least]?.probability ?? 0 };
  }
  const without = trials.aims.map((_, aim) => most(({ standing }) => standing.without[aim] ?? 0));
  const gains = without.map((one, aim) => one.standing.without[aim] ?? 0);
  const aim = gains.indexOf(Math.max(...gains));
  const freed = without[aim];
  if (freed === undefined) return null;
  const way = verify(freed.at, seed + 1);
  return { aim, kind: 'against-the-others', way, probability: way.aims[aim]?.others ?? 0 };
}
