import { describe, expect, it } from 'vitest';
import { laplace } from './laplace.ts';
import { priorOf } from './proposal.ts';
import { AT, DIMENSIONS } from './uncertain.ts';

/** A bottle and a milk of which only the sum is known beforehand, as pots beside this one leave them. */
const [BOTTLE, MILK] = [AT.rennetStrength, AT.clottingMaker];
const at = (d: number, e: number): number => d * DIMENSIONS + e;
function hangingTogether(correlation: number) {
  const covariance = new Float64Array(DIMENSIONS * DIMENSIONS);
  for (let d = 0; d < DIMENSIONS; d++) covariance[at(d, d)] = 1;
  covariance[at(BOTTLE, MILK)] = covariance[at(MILK, BOTTLE)] = correlation;
  const mean = new Float64Array(DIMENSIONS);
  mean[BOTTLE] = 0.5;
  return priorOf({ mean, covariance });
}

describe('where the evidence points, from beliefs that hang together', () => {
  it('is the exact answer where the evidence is a straight line', () => {
    const prior = hangingTogether(-0.8);
    // One note of the bottle alone: 2, give or take a half.
    const innovations = (row: Float64Array): Float64Array => Float64Array.of((2 - (row[BOTTLE] ?? 0)) / 0.5);
    const first = [-1, 0, 1, 2].map((step) => {
      const row = prior.mean.slice();
      row[BOTTLE] = (row[BOTTLE] ?? 0) + step;
      return { row, result: null, logLikelihood: 0, innovations: innovations(row) };
    });
    const found = laplace({ prior, first, innovations });
    // By hand: gain 1 / (1 + 0.25) of the 1.5 between belief and note, and -0.8 times that for the milk.
    const gain = 1 / 1.25;
    expect(found.mean[BOTTLE]).toBeCloseTo(0.5 + gain * 1.5, 6);
    expect(found.mean[MILK]).toBeCloseTo(-0.8 * gain * 1.5, 6);
    const variance = (d: number): number => {
      let sum = 0;
      for (let e = 0; e <= d; e++) sum += (found.factor[at(d, e)] ?? 0) ** 2;
      return sum;
    };
    expect(variance(BOTTLE)).toBeCloseTo(1 - gain, 6);
    expect(variance(MILK)).toBeCloseTo(1 - 0.64 * gain, 6);
    expect(variance(AT.pace)).toBeCloseTo(1, 6);
  });
});
