import { describe, expect, it } from 'vitest';
import { temperatureFactor } from './acidification.ts';
import { CULTURE_KINDS, CULTURES, initialCellsPerL, lagOf, temperatureSpread } from './culture.ts';

describe('a culture', () => {
  it.each(CULTURE_KINDS)('of kind %s has limits in order, and works best at its optimum', (kind) => {
    const traits = CULTURES[kind];
    expect(traits.temperatureMinC).toBeLessThan(traits.temperatureOptC);
    expect(traits.temperatureOptC).toBeLessThan(traits.temperatureMaxC);
    expect(traits.acidPHStop).toBeLessThan(traits.growthPHMin);
    expect(temperatureFactor(traits, traits.temperatureOptC)).toBeCloseTo(1, 12);
    for (let temperatureC = 0; temperatureC < 60; temperatureC += 0.5) {
      const factor = temperatureFactor(traits, temperatureC);
      expect(factor).toBeGreaterThanOrEqual(0);
      expect(factor).toBeLessThanOrEqual(1 + 1e-12);
    }
  });

  it('of a packet at its stated dose brings 5 million cells a mL, a percent of bulk starter 10 million', () => {
    expect(initialCellsPerL({ packetFraction: 1 })).toBe(5e9);
    expect(initialCellsPerL({ packetFraction: 0.5 })).toBe(2.5e9);
    expect(initialCellsPerL({ percentBulk: 1 })).toBe(1e10);
    expect(() => initialCellsPerL({ packetFraction: 0 })).toThrow(/packetFraction/);
    expect(() => initialCellsPerL({ percentBulk: 60 })).toThrow(/percentBulk/);
  });

  it('wakes up more slowly the drier it came, and slowest when it is old', () => {
    const work = (form: 'bulk' | 'frozen' | 'freeze-dried') => lagOf({ form }).medianWork;
    expect(work('bulk')).toBeLessThan(work('frozen'));
    expect(work('frozen')).toBeLessThan(work('freeze-dried'));
    expect(lagOf({ form: 'bulk', isOld: true }).medianWork).toBeGreaterThan(work('freeze-dried'));
  });

  it('has the temperature spread of its own kin', () => {
    expect(temperatureSpread('yoghurt').temperatureMinSdC).toBe(3);
    expect(temperatureSpread('kefir').temperatureMinSdC).toBe(2);
  });
});
