/** Sorting of samples: hundreds of values that lie roughly evenly between their ends, thousands of times for one forecast. */

const BUCKETS = 256; // our own choice: about two values in each for five hundred members
const FEW = 48; // fewer values are sorted at once; our own choice
const FULLEST_SHARE = 0.1; // a bucket with more of the values than this is no even sample; our own choice

/**
 * A sorter with its scratch: make one, sort many samples with it. Values are counted into buckets of equal width and only
 * set right within them, which takes a third of the time of a sort by comparison; a sample with infinities, or heaped in
 * one place, is sorted by comparison all the same.
 * @param most  values in the largest sample
 * @returns sorts a sample in place, ascending; no NaN
 */
export function newSorter(most: number): (sample: Float64Array) => Float64Array {
  const counts = new Int32Array(BUCKETS + 1);
  const laid = new Float64Array(most);
  return (sample) => {
    const n = sample.length;
    if (n < FEW) return sample.sort();
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < n; i++) {
      const value = sample[i] ?? 0;
      if (value < low) low = value;
      if (value > high) high = value;
    }
    const perUnit = (BUCKETS - 1e-6) / (high - low);
    if (!(perUnit > 0) || !Number.isFinite(perUnit)) return sample.sort();
    counts.fill(0);
    for (let i = 0; i < n; i++) {
      const bucket = (((sample[i] ?? 0) - low) * perUnit) | 0;
      counts[bucket + 1] = (counts[bucket + 1] ?? 0) + 1;
    }
    for (let bucket = 1; bucket <= BUCKETS; bucket++) {
      const count = counts[bucket] ?? 0;
      if (count > FULLEST_SHARE * n) return sample.sort();
      counts[bucket] = count + (counts[bucket - 1] ?? 0);
    }
    for (let i = 0; i < n; i++) {
      const value = sample[i] ?? 0;
      const bucket = ((value - low) * perUnit) | 0;
      const place = counts[bucket] ?? 0;
      laid[place] = value;
      counts[bucket] = place + 1;
    }
    for (let i = 0; i < n; i++) {
      const value = laid[i] ?? 0;
      let place = i - 1;
      for (; place >= 0 && (sample[place] ?? 0) > value; place--) sample[place + 1] = sample[place] ?? 0;
      sample[place + 1] = value;
    }
    return sample;
  };
}
