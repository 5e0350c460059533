import { describe, expect, it } from 'vitest';
import { normalHypercube } from '../numbers/normal.ts';
import { place, priorOf } from './proposal.ts';
import { DIMENSIONS } from './uncertain.ts';

describe('what is believed of a kitchen', () => {
  const rows = (): Float64Array => normalHypercube({ members: 40, dimensions: DIMENSIONS, seed: 5 });
  const learned = priorOf({ growthRate: { mean: 0.4, sd: 0.5 }, acidAfterDrain: { mean: -1, sd: 0.3 } });

  it('moves members to the same bit, input by input or by the whole factor', () => {
    const apart = rows();
    const whole = rows();
    place(apart, 0, 40, learned);
    place(whole, 0, 40, { ...learned, isApart: false });
    expect(learned.isApart).toBe(true);
    expect(apart).toEqual(whole);
    expect(apart).not.toEqual(rows());
  });

  it('is not taken input by input where two hang together', () => {
    const covariance = Float64Array.from({ length: DIMENSIONS * DIMENSIONS }, (_, i) => {
      const [row, column] = [Math.floor(i / DIMENSIONS), i % DIMENSIONS];
      return row === column ? 1 : row + column === 1 ? 0.5 : 0;
    });
    expect(priorOf({ mean: new Float64Array(DIMENSIONS), covariance }).isApart).toBe(false);
  });
});
