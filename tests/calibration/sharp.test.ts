import { describe, expect, it } from 'vitest';
import { sharpnessResult } from '../../scripts/calibration/results.ts';
import { SHARPNESS } from '../../scripts/calibration/sharpness.ts';

/** `npm run calibration` measures more makes; this holds the notes to their worth at every test. */
const MAKES = 13;

describe('what notes are worth, in the middle one of a few makes', () => {
  for (const [id, { name, goal, of }] of Object.entries(SHARPNESS)) {
    it(
      goal === null ? `${name}: reported` : `${name}: at most ${goal.toFixed(2)} of the band is left`,
      () => {
        const all = Array.from({ length: MAKES }, (_, i) => of({ seed: 4_000_000 + i, members: 250 })).flatMap((one) =>
          one === null ? [] : [one],
        );
        const { makes, p25, p50, p75 } = sharpnessResult(id, all);
        console.log(`${id}: ${p50.toFixed(2)} (${p25.toFixed(2)}-${p75.toFixed(2)}) over ${makes} makes`);
        expect(makes).toBeGreaterThan(MAKES / 3);
        if (goal !== null) expect(p50).toBeLessThanOrEqual(goal);
        expect(p50).toBeGreaterThan(0);
      },
      120_000,
    );
  }
});
