import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { newOrdering, sortSample, spreadBetween } from './sort.ts';
import { spreadOf } from './stats.ts';

describe('order in a sample', () => {
  const work = newOrdering(600);
  // Adding nought turns -0 into 0: the two are equal, and which of them comes first is nobody's business.
  const even = fc.double({ min: -5, max: 5, noNaN: true }).map((x) => x + 0);
  const heaped = fc.oneof({ weight: 9, arbitrary: fc.constantFrom(3, 3.1, -2) }, { weight: 1, arbitrary: even });
  const endless = fc.oneof(
    { weight: 9, arbitrary: even },
    { weight: 1, arbitrary: fc.constantFrom(Infinity, -Infinity) },
  );

  const samples = [
    ['spread out', even],
    ['heaped in a few places', heaped],
    ['that never end', endless],
  ] as const;

  it.each(samples)('puts values %s in order, each as often as before', (_, value) => {
    fc.assert(
      fc.property(fc.array(value, { minLength: 0, maxLength: 600 }), (values) => {
        expect(sortSample(Float64Array.from(values), work)).toEqual(Float64Array.from(values).sort());
      }),
      { seed: 20261126, numRuns: 60 },
    );
  });

  it.each(samples)('gives the same five quantiles of values %s as sorting them does', (_, value) => {
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 600 }), (values) => {
        const ours = Object.values(spreadBetween(Float64Array.from(values), 0, values.length, work));
        const sorted = Object.values(spreadOf(values));
        ours.forEach((quantile, i) =>
          expect(Object.is(quantile, sorted[i]) ? 0 : quantile - (sorted[i] ?? 0)).toBeCloseTo(0, 12),
        );
      }),
      { seed: 20261126, numRuns: 200 },
    );
  });
});
