import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { gelFirmnessKernel, gelFirmnessPa, minutesToFirmness } from './firmness.ts';

const gel = { minutesSinceFlocculation: 20, clottingTimeMin: 15, caseinPercent: 2.5, softening: 1 };

describe('gel firmness', () => {
  it('follows the table of the science notes over the flocculation multiplier', () => {
    const at = (multiplier: number): number =>
      Math.round(gelFirmnessPa({ ...gel, minutesSinceFlocculation: (multiplier - 1) * 15 }));
    expect([2, 2.5, 3, 3.5, 4, 5, 6].map(at)).toEqual([12, 28, 43, 55, 65, 80, 91]);
  });

  it('grows with time and casein, and is nothing before the first flecks', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 200, noNaN: true }),
        fc.double({ min: 3, max: 60, noNaN: true }),
        fc.double({ min: 1.8, max: 6, noNaN: true }),
        (minutesSinceFlocculation, clottingTimeMin, caseinPercent) => {
          const input = { minutesSinceFlocculation, clottingTimeMin, caseinPercent, softening: 1 };
          const firmness = gelFirmnessKernel(input);
          expect(firmness).toBeGreaterThanOrEqual(0);
          expect(
            gelFirmnessKernel({ ...input, minutesSinceFlocculation: minutesSinceFlocculation + 1 }),
          ).toBeGreaterThanOrEqual(firmness);
          expect(gelFirmnessKernel({ ...input, caseinPercent: caseinPercent + 0.3 })).toBeGreaterThanOrEqual(firmness);
        },
      ),
      { seed: 20261125, numRuns: 200 },
    );
    expect(gelFirmnessKernel({ ...gel, minutesSinceFlocculation: 0 })).toBe(0);
    expect(gelFirmnessKernel({ ...gel, minutesSinceFlocculation: -5 })).toBe(0);
  });

  it('turns round: the minutes to a firmness give that firmness', () => {
    const minutes = minutesToFirmness({ ...gel, firmnessPa: 35 });
    expect(gelFirmnessPa({ ...gel, minutesSinceFlocculation: minutes })).toBeCloseTo(35, 9);
    expect(minutesToFirmness({ ...gel, softening: 0.2, firmnessPa: 35 })).toBe(Number.POSITIVE_INFINITY);
  });

  it('refuses milk with hardly any casein', () => {
    expect(() => gelFirmnessPa({ ...gel, caseinPercent: 0.5 })).toThrow(InputError);
  });
});
