import { judgeValue } from '../../make/quantity.ts';
import type { Sample } from '../../make/step.ts';
import { isDue, PACES } from '../logger/thin.ts';
import type { Heard } from './probe-line.ts';

export interface HeardAt extends Heard {
  /** Milliseconds UTC. */
  readonly at: number;
}

type ByQuantity<T> = Readonly<Partial<Record<Heard['quantity'], T>>>;

/** What a live probe has told so far. */
export interface LiveState {
  /** The last value of each quantity. */
  readonly last: ByQuantity<HeardAt & { readonly isPlausible: boolean }>;
  /** The last value of each that was noted. */
  readonly noted: ByQuantity<HeardAt>;
}

export const NOTHING_HEARD: LiveState = { last: {}, noted: {} };

/** Nothing heard for so long makes the last value an old one. Common practice (no source). */
export const STALE_MS = 60_000;

/** However far a value jumps, no two are noted closer than this: a loose wire is not a make. Our own choice. */
export const CLOSEST_MS = 10_000;

/**
 * Takes in one value: whether it can be true of what is measured, and whether it is worth noting now, at the same pace
 * as a logger's file. A value outside the plausible range is shown and never noted.
 */
export function heardNow(
  state: LiveState,
  heard: HeardAt,
  sample: Sample,
): { readonly state: LiveState; readonly note: HeardAt | null } {
  const { quantity, value, at } = heard;
  const isPlausible = judgeValue({ quantity, value, field: quantity, sample }).verdict === 'accepted';
  const last = { ...state.last, [quantity]: { ...heard, isPlausible } };
  const before = state.noted[quantity];
  const due =
    before === undefined ||
    (at - before.at >= CLOSEST_MS && isDue({ before, one: { at, value }, pace: PACES[quantity] }));
  if (!isPlausible || !due) return { state: { last, noted: state.noted }, note: null };
  return { state: { last, noted: { ...state.noted, [quantity]: heard } }, note: heard };
}

/** Whether a value is too old to be called the present one. */
export const isStale = (heard: Pick<HeardAt, 'at'>, nowAt: number): boolean => nowAt - heard.at >= STALE_MS;
