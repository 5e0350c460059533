import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { designPoints, quadraticFit, termCount, termsAt } from './quadratic.ts';

const valueAt = (coefficients: Float64Array, point: readonly number[]): number => {
  const terms = new Float64Array(termCount(point.length));
  termsAt(point, terms);
  return terms.reduce((sum, term, i) => sum + term * (coefficients[i] ?? 0), 0);
};

describe('a quadratic response surface', () => {
  it('gives back any quadratic in one to five coordinates, each output its own', () => {
    const inputs = fc.integer({ min: 1, max: 5 }).chain((n) =>
      fc.record({
        first: fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: termCount(n), maxLength: termCount(n) }),
        second: fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: termCount(n), maxLength: termCount(n) }),
        at: fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: n, maxLength: n }),
      }),
    ); // prettier-ignore
    fc.assert(
      fc.property(inputs, ({ first, second, at }) => {
        const points = designPoints(at.length);
        const truths = [Float64Array.from(first), Float64Array.from(second)];
        const values = points.map((point) => Float64Array.from(truths, (truth) => valueAt(truth, point)));
        const fit = quadraticFit({ points, values });
        const terms = termCount(at.length);
        for (const [o, truth] of truths.entries()) {
          expect(valueAt(fit.slice(o * terms, (o + 1) * terms), at)).toBeCloseTo(valueAt(truth, at), 3);
        }
      }),
      { numRuns: 60, seed: 41 },
    );
  });

  it('looks at no more places than a forecast can afford', () => {
    expect([1, 2, 3, 4, 5].map((n) => designPoints(n).length)).toEqual([5, 7, 13, 21, 31]);
    for (const point of designPoints(4)) expect(point.every((x) => Math.abs(x) <= 1)).toBe(true);
  });

  it('refuses values that are not as many as the points', () => {
    expect(() => quadraticFit({ points: [[0], [1]], values: [new Float64Array(1)] })).toThrow(/as many values/);
  });
});
