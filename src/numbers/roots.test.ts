import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstReached, rootBetween } from './roots.ts';

describe('rootBetween', () => {
  it('finds a textbook root to the last digits', () => {
    expect(rootBetween({ f: (x) => Math.cos(x) - x, low: 0, high: 1 })).toBeCloseTo(0.7390851332151607, 12);
  });

  it('finds the root of any cubic it is given a bracket for, flat or steep', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -9, max: 9, noNaN: true }),
        fc.double({ min: 0.01, max: 500, noNaN: true }),
        (root, slope) => {
          const f = (x: number): number => slope * (x - root) ** 3 + (x - root);
          expect(Math.abs(rootBetween({ f, low: -10, high: 10 }) - root)).toBeLessThan(1e-9);
        },
      ),
      { seed: 20261125, numRuns: 300 },
    );
  });

  it('takes an end that is already a root', () => {
    expect(rootBetween({ f: (x) => x - 2, low: 2, high: 5 })).toBe(2);
    expect(rootBetween({ f: (x) => x - 5, low: 2, high: 5 })).toBe(5);
  });

  it('refuses a bracket without a sign change', () => {
    expect(() => rootBetween({ f: (x) => x * x + 1, low: -1, high: 1 })).toThrow(RangeError);
  });
});

describe('firstReached', () => {
  it('finds where a claim turns true, and says null where it never does', () => {
    expect(firstReached({ isReached: (x) => x >= Math.PI, low: 0, high: 10, tolerance: 1e-9 })).toBeCloseTo(Math.PI, 8);
    expect(firstReached({ isReached: () => false, low: 0, high: 10, tolerance: 1e-9 })).toBeNull();
    expect(firstReached({ isReached: () => true, low: 3, high: 10, tolerance: 1e-9 })).toBe(3);
  });
});
