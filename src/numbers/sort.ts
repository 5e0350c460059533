import { spreadOfSorted, SPREAD_AT, type Spread } from './stats.ts';

/**
 * Order in samples of hundreds of values that lie roughly evenly between their ends, asked for thousands of times in one
 * forecast. Values are counted into buckets of equal width, and only what stands in one bucket is compared; a sample with
 * infinities, or heaped in one place, is sorted by comparison all the same.
 */

const BUCKETS = 256; // our own choice: about two values in each for five hundred members
const FEW = 48; // fewer values are sorted at once; our own choice
const FULLEST_SHARE = 0.1; // a bucket with more of the values than this is no even sample; our own choice

/** Scratch for ordering samples: make one, and order many samples with it. */
export interface Ordering {
  /** How many values each bucket holds, and which bucket each value fell into. */
  readonly counts: Int32Array;
  readonly bucketOf: Uint8Array;
  /** Where the next value of each bucket goes, and room for values. */
  readonly next: Int32Array;
  readonly laid: Float64Array;
  /** Where the values next to each wanted rank are found. */
  readonly placeOf: Int32Array;
}

/** @param most  values in the largest sample */
export const newOrdering = (most: number): Ordering => ({
  counts: new Int32Array(BUCKETS),
  bucketOf: new Uint8Array(most),
  next: new Int32Array(BUCKETS),
  laid: new Float64Array(most),
  placeOf: new Int32Array(2 * SPREAD_AT.length),
});

/** Counts the values from one place to before another into buckets; false where that is no help. */
function isCounted(values: Float64Array, from: number, to: number, { counts, bucketOf }: Ordering): boolean {
  const n = to - from;
  if (n < FEW) return false;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = from; i < to; i++) {
    const value = values[i] ?? 0;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  const perUnit = (BUCKETS - 1e-6) / (high - low);
  if (!(perUnit > 0) || !Number.isFinite(perUnit)) return false;
  counts.fill(0);
  for (let i = 0; i < n; i++) {
    const bucket = (((values[from + i] ?? 0) - low) * perUnit) | 0;
    bucketOf[i] = bucket;
    counts[bucket] = (counts[bucket] ?? 0) + 1;
  }
  let fullest = 0;
  for (let bucket = 0; bucket < BUCKETS; bucket++) {
    const count = counts[bucket] ?? 0;
    if (count > fullest) fullest = count;
  }
  return fullest <= FULLEST_SHARE * n;
}

/** Puts values in order in place, from one place to before another. */
function insert(values: Float64Array, from: number, to: number): void {
  for (let i = from + 1; i < to; i++) {
    const value = values[i] ?? 0;
    let place = i - 1;
    for (; place >= from && (values[place] ?? 0) > value; place--) values[place + 1] = values[place] ?? 0;
    values[place + 1] = value;
  }
}

/**
 * Sorts a sample in place.
 * @param sample  no NaN
 * @returns the sample, ascending
 */
export function sortSample(sample: Float64Array, work: Ordering): Float64Array {
  const { counts, bucketOf, next, laid } = work;
  const n = sample.length;
  if (!isCounted(sample, 0, n, work)) return sample.sort();
  let before = 0;
  for (let bucket = 0; bucket < BUCKETS; bucket++) {
    next[bucket] = before;
    before += counts[bucket] ?? 0;
  }
  for (let i = 0; i < n; i++) {
    const bucket = bucketOf[i] ?? 0;
    const place = next[bucket] ?? 0;
    laid[place] = sample[i] ?? 0;
    next[bucket] = place + 1;
  }
  insert(laid, 0, n);
  for (let i = 0; i < n; i++) sample[i] = laid[i] ?? 0;
  return sample;
}

/**
 * The five quantiles of the values that stand from one place to before another: only the buckets in which a quantile falls
 * are put in order.
 * @param values  at least one between the two places, no NaN; they may be reordered there
 * @returns as `spreadOf`
 */
export function spreadBetween(values: Float64Array, from: number, to: number, work: Ordering): Spread {
  if (!isCounted(values, from, to, work)) return spreadOfSorted(values.subarray(from, to).sort());
  const { bucketOf, next, laid } = work;
  const n = to - from;
  const used = keepBuckets(n, work);
  for (let i = 0; i < n; i++) {
    const bucket = bucketOf[i] ?? 0;
    const place = next[bucket] ?? -1;
    if (place < 0) continue;
    laid[place] = values[from + i] ?? 0;
    next[bucket] = place + 1;
  }
  insert(laid, 0, used);
  return {
    p5: betweenRanks(n, 0, work),
    p25: betweenRanks(n, 1, work),
    p50: betweenRanks(n, 2, work),
    p75: betweenRanks(n, 3, work),
    p95: betweenRanks(n, 4, work),
  };
}

/** The lower of the two ranks that a quantile lies between. */
const rankBelow = (n: number, k: number): number => Math.floor((SPREAD_AT[k] ?? 0) * (n - 1));

/**
 * Gives every bucket with a wanted rank a place to be kept from, the others -1, and notes where each rank will be found once
 * all that is kept is in order.
 * @returns how many values will be kept
 */
function keepBuckets(n: number, { counts, next, placeOf }: Ordering): number {
  next.fill(-1);
  let bucket = 0;
  let before = 0;
  let used = 0;
  for (let wanted = 0; wanted < placeOf.length; wanted++) {
    const rank = rankBelow(n, wanted >> 1) + (wanted & 1);
    for (; rank >= before + (counts[bucket] ?? n); bucket++) before += counts[bucket] ?? 0;
    const count = counts[bucket] ?? 0;
    if ((next[bucket] ?? 0) < 0) {
      next[bucket] = used;
      used += count;
    }
    placeOf[wanted] = used - count + rank - before;
  }
  return used;
}

/** A quantile from the two values that it lies between. */
function betweenRanks(n: number, k: number, { laid, placeOf }: Ordering): number {
  const low = laid[placeOf[2 * k] ?? 0] ?? 0;
  const high = laid[placeOf[2 * k + 1] ?? 0] ?? 0;
  const share = (SPREAD_AT[k] ?? 0) * (n - 1) - rankBelow(n, k);
  return low + share * (high - low);
}
