import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { cheeseWaterActivity } from './water-activity.ts';

describe('the water activity of a cheese', () => {
  it('falls with salt and rises with water, and never leaves 0.85 to 1', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 42, max: 80, noNaN: true }),
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        (moisturePercent, saltPercent) => {
          const here = cheeseWaterActivity({ moisturePercent, saltPercent }).waterActivity;
          expect(cheeseWaterActivity({ moisturePercent, saltPercent: saltPercent + 0.1 }).waterActivity).toBeLessThan(
            here,
          );
          expect(
            cheeseWaterActivity({ moisturePercent: moisturePercent + 1, saltPercent }).waterActivity,
          ).toBeGreaterThan(here);
          expect(here).toBeLessThanOrEqual(1);
          expect(here).toBeGreaterThan(0.85);
        },
      ),
      { seed: 20261125, numRuns: 200 },
    );
  });

  it('carries an error of at least 0.01, for it is no measurement', () => {
    const answer = cheeseWaterActivity({ moisturePercent: 57, saltPercent: 1, pH: 5.2 });
    expect(answer.error).toBeGreaterThanOrEqual(0.01);
    expect(
      Math.abs(answer.waterActivity - cheeseWaterActivity({ moisturePercent: 57, saltPercent: 1 }).waterActivity),
    ).toBeLessThan(answer.error);
  });

  it('is not guessed for a hard, dry cheese', () => {
    expect(() => cheeseWaterActivity({ moisturePercent: 30, saltPercent: 2 })).toThrow(InputError);
    expect(() => cheeseWaterActivity({ moisturePercent: 45, saltPercent: 20 })).toThrow(/saltInMoisturePercent/);
  });
});
