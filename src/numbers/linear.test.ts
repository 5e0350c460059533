import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { choleskyFactor, logDeterminant, lowerTimes, normalExponent } from './linear.ts';

const square = (n: number) =>
  fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: n * n, maxLength: n * n });

describe('small dense matrices', () => {
  it('a factor times its transpose is the matrix again', () => {
    fc.assert(
      fc.property(square(5), (entries) => {
        const n = 5;
        const matrix = new Float64Array(n * n);
        for (let i = 0; i < n; i++) {
          for (let j = 0; j < n; j++) {
            let sum = i === j ? 0.5 : 0;
            for (let k = 0; k < n; k++) sum += (entries[i * n + k] ?? 0) * (entries[j * n + k] ?? 0);
            matrix[i * n + j] = sum;
          }
        }
        const factor = choleskyFactor(matrix, n);
        if (factor === null) throw new Error('a positive definite matrix was refused');
        for (let i = 0; i < n; i++) {
          for (let j = 0; j < n; j++) {
            let sum = 0;
            for (let k = 0; k < n; k++) sum += (factor[i * n + k] ?? 0) * (factor[j * n + k] ?? 0);
            expect(sum).toBeCloseTo(matrix[i * n + j] ?? 0, 8);
          }
        }
      }),
      { seed: 20261125, numRuns: 50 },
    );
  });

  it('solving takes back what multiplying did', () => {
    const factor = Float64Array.from([2, 0, 0, 1, 3, 0, -1, 0.5, 1]);
    const out = new Float64Array(3);
    lowerTimes(factor, [1, -2, 0.5], out);
    expect(normalExponent(factor, out, new Float64Array(3))).toBeCloseTo(1 + 4 + 0.25, 12);
    expect(logDeterminant(factor, 3)).toBeCloseTo(Math.log(6), 12);
  });

  it('refuses a matrix that is no covariance', () => {
    expect(choleskyFactor(Float64Array.from([1, 2, 2, 1]), 2)).toBeNull();
  });
});
