/** The best place between the bounds by any cost: a coarse look everywhere, then a closer one around the best. */
import type { Standing } from './solve-surface.ts';

export interface Place {
  readonly at: readonly number[];
  readonly standing: Standing;
}

/** A box inside -1 to 1 on every axis. */
export interface Box {
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** Places on an axis of the coarse look, by the number of axes: two to three thousand in all. */
const PER_AXIS = [1, 401, 45, 13, 7, 5] as const;
const HALVINGS = 7;

/** The coarse look, shared by every cost. */
export function grid(input: { readonly box: Box; readonly stands: (at: readonly number[]) => Standing }): Place[] {
  const { box, stands } = input;
  const dimensions = box.low.length;
  const count = PER_AXIS[dimensions] ?? 3;
  const along = (axis: number): number[] =>
    Array.from({ length: count }, (_, i) => mix(box.low[axis] ?? -1, box.high[axis] ?? 1, i / (count - 1)));
  let places: (readonly number[])[] = [[]];
  for (let axis = 0; axis < dimensions; axis++) places = places.flatMap((at) => along(axis).map((x) => [...at, x]));
  return places.map((at) => ({ at, standing: stands(at) }));
}

/** The place of least cost among some. */
export function leastOf(places: readonly Place[], cost: (place: Place) => number): Place {
  const [first, ...others] = places;
  if (first === undefined) throw new RangeError('a search needs at least one place');
  let [best, least] = [first, cost(first)];
  for (const place of others) {
    const here = cost(place);
    if (here < least) [best, least] = [place, here];
  }
  return best;
}

/**
 * The place of least cost between the bounds.
 * @param input.starts the coarse look, and any place that must be considered
 */
export function cheapest(input: {
  readonly starts: readonly Place[];
  readonly box: Box;
  readonly stands: (at: readonly number[]) => Standing;
  readonly cost: (place: Place) => number;
}): Place {
  const { starts, box, stands, cost } = input;
  let best = leastOf(starts, cost);
  let least = cost(best);
  const consider = (place: Place): boolean => {
    const here = cost(place);
    if (!(here < least)) return false;
    [best, least] = [place, here];
    return true;
  };
  const dimensions = box.low.length;
  let stride = 2 / ((PER_AXIS[dimensions] ?? 3) - 1);
  for (let halving = 0; halving < HALVINGS; halving++) {
    let isMoving = true;
    for (let guard = 0; isMoving && guard < 20; guard++) {
      isMoving = false;
      for (const move of moves(dimensions)) {
        const at = best.at.map((x, axis) => clamp(x + stride * (move[axis] ?? 0), box.low[axis] ?? -1, box.high[axis] ?? 1)); // prettier-ignore
        if (consider({ at, standing: stands(at) })) isMoving = true;
      }
    }
    stride /= 2;
  }
  return best;
}

/** One step on every axis, and on every two at once in opposite ways: along a trade between them. */
function moves(dimensions: number): number[][] {
  const axes = Array.from({ length: dimensions }, (_, axis) => axis);
  const step = (...to: readonly (readonly [number, number])[]): number[] => axes.map((axis) => to.find(([moved]) => moved === axis)?.[1] ?? 0); // prettier-ignore
  const single = axes.flatMap((i) => [step([i, 1]), step([i, -1])]);
  const pairs = axes.flatMap((i) => axes.slice(i + 1).flatMap((j) => [step([i, 1], [j, -1]), step([i, -1], [j, 1])]));
  return [...single, ...pairs];
}

export const mix = (from: number, to: number, share: number): number => from + share * (to - from);
const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);
