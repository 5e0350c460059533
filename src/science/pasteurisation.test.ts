import { describe, expect, it } from 'vitest';
import { legalPairs, meetsLegalPair } from './pasteurisation.ts';

describe('the legal pairs', () => {
  const milk = { fatPercent: 3.6 };

  it('rise by three degrees for cream, sweetened milk and thickened milk', () => {
    expect(legalPairs(milk).map((pair) => pair.temperatureC)).toEqual([63, 72]);
    expect(legalPairs({ fatPercent: 9.9 })[0]?.temperatureC).toBe(63);
    expect(legalPairs({ fatPercent: 10 })[0]?.temperatureC).toBe(66);
    expect(legalPairs({ fatPercent: 3.6, isSweetened: true })[0]?.temperatureC).toBe(66);
    expect(legalPairs({ fatPercent: 3.6, totalSolidsPercent: 18 })[1]?.temperatureC).toBe(75);
  });

  it('are met by a hold, never by a sum: 64 °C for 18 minutes is none', () => {
    expect(meetsLegalPair({ temperatureC: 63, holdSeconds: 1800, milk })).toBe(true);
    expect(meetsLegalPair({ temperatureC: 72, holdSeconds: 15, milk })).toBe(true);
    expect(meetsLegalPair({ temperatureC: 64, holdSeconds: 18 * 60, milk })).toBe(false);
    expect(meetsLegalPair({ temperatureC: 62.9, holdSeconds: 3600, milk })).toBe(false);
    expect(meetsLegalPair({ temperatureC: 63, holdSeconds: 1800, milk: { fatPercent: 12 } })).toBe(false);
  });
});
