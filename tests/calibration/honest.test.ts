import { beforeAll, describe, expect, it } from 'vitest';
import type { Ranked } from '../../scripts/calibration/rank.ts';
import { quantityResults, rankedMakes } from '../../scripts/calibration/results.ts';
import { chiSquareTail, kolmogorovTail } from '../../scripts/calibration/uniform.ts';

/** `npm run calibration` measures more, over more makes; this holds the bands to it at every test. */
describe('the bands of a hundred synthetic makes', () => {
  let ranked: Ranked[] = [];
  beforeAll(() => {
    ranked = rankedMakes({ model: null, makes: 100, members: 200, seed: 77_000 }).flatMap((make) => make.ranked);
  }, 400_000);

  it('hold the truth nine times in ten, over all quantities and notes', () => {
    const covered = ranked.filter(({ rank }) => rank >= 0.05 && rank <= 0.95).length / ranked.length;
    console.log(`members hold ${(100 * covered).toFixed(1)} % of ${ranked.length} truths`);
    expect(ranked.length).toBeGreaterThan(450);
    expect(covered).toBeGreaterThan(0.83);
    expect(covered).toBeLessThan(0.97);
  });

  it('do so for each quantity, as members and as shown', () => {
    for (const { id, makes, covered, shownCovered, distanceP } of quantityResults(ranked)) {
      console.log(`${id}: ${makes} makes, members ${(100 * covered).toFixed(1)} %, shown ${(100 * shownCovered).toFixed(1)} %`); // prettier-ignore
      expect(makes, id).toBeGreaterThan(30);
      // Three standard deviations of a share of 90 % over so many makes.
      const wide = Math.max(0.07, 3 * Math.sqrt(0.09 / makes));
      expect(covered, id).toBeGreaterThan(0.9 - wide);
      expect(shownCovered, id).toBeGreaterThan(0.9 - wide);
      expect(distanceP, id).toBeGreaterThan(0.001);
    }
  });
});

describe('the measures of evenness', () => {
  it('agree with the tables of chi-square and of Kolmogorov (from memory: 30.14 at 5 % for 19; 1.358 at 5 %)', () => {
    expect(chiSquareTail(30.14, 19)).toBeCloseTo(0.05, 3);
    expect(kolmogorovTail(1.358 / Math.sqrt(10_000), 10_000)).toBeCloseTo(0.05, 2);
  });
});
