import { spreadOfSorted, SPREAD_AT, type Spread } from './stats.ts';

/**
 * Order in samples of hundreds of values that lie roughly evenly between their ends, asked for thousands of times in one
 * forecast. Values are counted into buckets of equal width, and only what stands in one bucket is compared; a sample with
 * infinities, or heaped in one place, is sorted by comparison all the same.
 */

const BUCKETS = 256; // our own choice: about two values in each for five hundred members
const FEW = 48; // fewer values are sorted at once; our own choice
const FULLEST_SHARE = 0.1; // a bucket with more of the values than this is no even sample; our own choice

interface Buckets {
  readonly low: number;
  readonly perUnit: number;
}

/** Counts a sample into buckets; null where that is no help. */
function counted(sample: Float64Array, counts: Int32Array): Buckets | null {
  const n = sample.length;
  if (n < FEW) return null;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    const value = sample[i] ?? 0;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  const perUnit = (BUCKETS - 1e-6) / (high - low);
  if (!(perUnit > 0) || !Number.isFinite(perUnit)) return null;
  counts.fill(0);
  let fullest = 0;
  for (let i = 0; i < n; i++) {
    const bucket = (((sample[i] ?? 0) - low) * perUnit) | 0;
    const count = (counts[bucket] ?? 0) + 1;
    counts[bucket] = count;
    if (count > fullest) fullest = count;
  }
  return fullest > FULLEST_SHARE * n ? null : { low, perUnit };
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
 * A sorter with its scratch: make one, sort many samples with it.
 * @param most  values in the largest sample
 * @returns sorts a sample in place, ascending; no NaN
 */
export function newSorter(most: number): (sample: Float64Array) => Float64Array {
  const places = new Int32Array(BUCKETS);
  const laid = new Float64Array(most);
  return (sample) => {
    const buckets = counted(sample, places);
    if (buckets === null) return sample.sort();
    const { low, perUnit } = buckets;
    const n = sample.length;
    let before = 0;
    for (let bucket = 0; bucket < BUCKETS; bucket++) {
      const count = places[bucket] ?? 0;
      places[bucket] = before;
      before += count;
    }
    for (let i = 0; i < n; i++) {
      const value = sample[i] ?? 0;
      const bucket = ((value - low) * perUnit) | 0;
      const place = places[bucket] ?? 0;
      laid[place] = value;
      places[bucket] = place + 1;
    }
    insert(laid, 0, n);
    for (let i = 0; i < n; i++) sample[i] = laid[i] ?? 0;
    return sample;
  };
}

/**
 * Takes the five quantiles of many samples, with its scratch: only the buckets in which a quantile falls are put in order.
 * @param most  values in the largest sample
 * @returns the quantiles of a sample of at least one value, no NaN, as `spreadOf` gives them; the sample may be reordered
 */
export function newSpreader(most: number): (sample: Float64Array) => Spread {
  const counts = new Int32Array(BUCKETS);
  const next = new Int32Array(BUCKETS);
  const kept = new Float64Array(most);
  const placeOf = new Int32Array(2 * SPREAD_AT.length);
  return (sample) => {
    const buckets = counted(sample, counts);
    if (buckets === null) return spreadOfSorted(sample.sort());
    const { low, perUnit } = buckets;
    const n = sample.length;
    const used = keepBuckets({ n, counts, next, placeOf });
    for (let i = 0; i < n; i++) {
      const value = sample[i] ?? 0;
      const bucket = ((value - low) * perUnit) | 0;
      const place = next[bucket] ?? -1;
      if (place < 0) continue;
      kept[place] = value;
      next[bucket] = place + 1;
    }
    insert(kept, 0, used);
    return betweenRanks(n, kept, placeOf);
  };
}

/** The lower of the two ranks that a quantile lies between. */
const rankBelow = (n: number, k: number): number => Math.floor((SPREAD_AT[k] ?? 0) * (n - 1));

/**
 * Gives every bucket with a wanted rank a place to be kept from, the others -1, and notes where each rank will be found once
 * all that is kept is in order.
 * @returns how many values will be kept
 */
function keepBuckets(of: { n: number; counts: Int32Array; next: Int32Array; placeOf: Int32Array }): number {
  const { n, counts, next, placeOf } = of;
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

function betweenRanks(n: number, kept: Float64Array, placeOf: Int32Array): Spread {
  const at = (k: number): number => {
    const low = kept[placeOf[2 * k] ?? 0] ?? 0;
    const high = kept[placeOf[2 * k + 1] ?? 0] ?? 0;
    const share = (SPREAD_AT[k] ?? 0) * (n - 1) - rankBelow(n, k);
    return low + share * (high - low);
  };
  return { p5: at(0), p25: at(1), p50: at(2), p75: at(3), p95: at(4) };
}
