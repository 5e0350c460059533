import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  BULK_DENSITIES,
  dropsFor,
  isKitchenIngredient,
  kitchenIngredients,
  SPOON_REGIONS,
  spoonsFor,
  spoonVolume,
} from './kitchen-measures.ts';

describe('kitchen spoons', () => {
  it('are a third larger in an Australian tablespoon', () => {
    expect(spoonVolume({ spoon: 'tablespoon', region: 'australia' }).volumeML).toBe(20);
    expect(spoonVolume({ spoon: 'tablespoon', region: 'metric' }).volumeML).toBe(15);
    expect(spoonVolume({ spoon: 'tablespoon', region: 'us' }).volumeML).toBeCloseTo(14.787, 3);
    expect(spoonVolume({ spoon: 'tablespoon', region: 'imperial' }).volumeML).toBeCloseTo(14.21, 2);
    expect(spoonVolume({ spoon: 'eighth-teaspoon', region: 'us' }).volumeML).toBeCloseTo(0.616, 3);
  });

  it('come within a third of the mass asked for, and say how far off they may be', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...kitchenIngredients),
        fc.constantFrom(...SPOON_REGIONS),
        fc.double({ min: 0.2, max: 100, noNaN: true }),
        (ingredient, region, massG) => {
          const spoons = spoonsFor({ massG, ingredient, region });
          if (spoons === null) {
            // Only less than most of the smallest spoon, or more than a dozen tablespoons.
            const least = spoonVolume({
              spoon: region === 'us' ? 'smidgen' : region === 'metric' ? 'eighth-teaspoon' : 'quarter-teaspoon',
              region,
            }).volumeML;
            const { typical } = BULK_DENSITIES[ingredient];
            expect(massG < 0.8 * least * typical || massG > 100 * typical).toBe(true);
            return;
          }
          expect(Math.abs(spoons.massG / massG - 1)).toBeLessThan(0.35);
          expect(spoons.errorPercent).toBeGreaterThanOrEqual(100 * Math.abs(spoons.massG / massG - 1));
        },
      ),
      { seed: 20261125, numRuns: 1000 },
    );
  });

  it('give a culture by the eighth of a teaspoon with a third of doubt, and scales are surer', () => {
    const spoons = spoonsFor({ massG: 0.3, ingredient: 'freeze-dried-culture', region: 'us' });
    expect(spoons?.words).toBe('about 1/8 tsp');
    expect(spoons?.errorPercent).toBeGreaterThan(25);
    expect(spoons?.isWeightSafer).toBe(true);
  });

  it('are sure enough for a tablespoon of table salt, but not for a flake one of unknown make', () => {
    const fine = spoonsFor({ massG: 18, ingredient: 'table-salt', region: 'metric' });
    expect(fine).toMatchObject({ words: 'about 1 tbsp', isWeightSafer: false });
    const flaky = spoonsFor({ massG: 18, ingredient: 'flaky-salt', region: 'metric' });
    expect(flaky?.words).toBe('about 2 tbsp');
    expect(flaky?.errorPercent).toBeGreaterThan(fine?.errorPercent ?? 0);
  });

  it('are not offered where none is near', () => {
    expect(spoonsFor({ massG: 0.02, ingredient: 'freeze-dried-culture', region: 'metric' })).toBeNull();
    expect(spoonsFor({ massG: 2000, ingredient: 'table-salt', region: 'us' })).toBeNull();
  });
});

describe('drops', () => {
  it('are 20 a millilitre, give or take ten, until this bottle has been counted', () => {
    expect(dropsFor({ volumeML: 2 })).toEqual({ drops: 40, low: 20, high: 60, isTooCoarse: false });
    expect(dropsFor({ volumeML: 2, dropsPerML: 33 })).toEqual({ drops: 66, low: 66, high: 66, isTooCoarse: false });
  });

  it('are too coarse below twenty', () => {
    expect(dropsFor({ volumeML: 0.9 }).isTooCoarse).toBe(true);
    expect(dropsFor({ volumeML: 1 }).isTooCoarse).toBe(false);
  });
});

describe('bulk densities', () => {
  it('have their middle inside their scatter, and a source each', () => {
    for (const name of kitchenIngredients) {
      const { low, typical, high, source } = BULK_DENSITIES[name];
      expect(low, name).toBeLessThan(typical);
      expect(typical, name).toBeLessThan(high);
      expect(source.length, name).toBeGreaterThan(8);
    }
    expect(isKitchenIngredient('water')).toBe(true);
    expect(isKitchenIngredient('constructor')).toBe(false);
  });
});
