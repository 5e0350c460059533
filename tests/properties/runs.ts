/** How the properties are asked: over which range, how often, by which seed, and what it is to rise. */
import fc from 'fast-check';
import { expect } from 'vitest';

export const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

export const RUNS = { seed: 20261125, numRuns: 60 };
/** For the sums that are slow to answer. */
export const FEW = { seed: 20261125, numRuns: 15 };

/** Asserts that the numbers rise, each by more than nothing. */
export function expectRising(values: readonly number[]): void {
  values.slice(1).forEach((value, i) => expect(value).toBeGreaterThan(values[i] ?? Number.NaN));
}
