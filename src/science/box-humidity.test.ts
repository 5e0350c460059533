import { describe, expect, it } from 'vitest';
import { boxAdvice, boxHumidity, dewHumidityKernel } from './box-humidity.ts';

describe('a box in the fridge without a meter', () => {
  it('is moister with its lid shut than open, and with a damp towel than a dry one', () => {
    const middle = (seen: Parameters<typeof boxHumidity>[0]): number => {
      const { low, high } = boxHumidity(seen);
      return (low + high) / 2;
    };
    expect(middle({ lid: 'shut' })).toBeGreaterThan(middle({ lid: 'finger' }));
    expect(middle({ lid: 'finger' })).toBeGreaterThan(middle({ lid: 'hand' }));
    expect(middle({ lid: 'hand' })).toBeGreaterThan(middle({ lid: 'open' }));
    expect(middle({ lid: 'finger', towel: 'damp' })).toBeGreaterThan(middle({ lid: 'finger', towel: 'dry' }));
  });

  it('is above the dew of a lid one degree colder where drops hang under it', () => {
    // Saturation pressures at 7 and 8 °C: 1002 and 1073 Pa (steam tables, from memory).
    expect(dewHumidityKernel({ temperatureC: 8, colderK: 1 })).toBeCloseTo((100 * 1002) / 1073, 0);
    const wet = boxHumidity({ lid: 'finger', droplets: 'drops', temperatureC: 8 });
    expect(wet.low).toBeGreaterThan(93);
    expect(boxHumidity({ lid: 'finger', droplets: 'none', temperatureC: 8 }).high).toBeLessThan(wet.low + 1);
  });

  it('always gives a range in order, inside 0 to 100, and admits when nothing was seen', () => {
    for (const lid of ['shut', 'finger', 'hand', 'open', null] as const)
      for (const towel of ['none', 'dry', 'damp', null] as const)
        for (const droplets of ['none', 'mist', 'drops', 'pool', null] as const) {
          const { low, high } = boxHumidity({ lid, towel, droplets });
          expect(low, `${lid} ${towel} ${droplets}`).toBeLessThan(high);
          expect(low).toBeGreaterThan(20);
          expect(high).toBeLessThanOrEqual(100);
        }
    expect(boxHumidity({})).toMatchObject({ because: 'nothing-seen', high: 99 });
  });

  it('is opened where it drips, moistened where it dries, and left alone where it fits', () => {
    const wanted = { low: 85, high: 92 };
    const advise = (seen: Parameters<typeof boxHumidity>[0]) => boxAdvice({ likely: boxHumidity(seen), seen, wanted });
    expect(advise({ lid: 'shut', droplets: 'pool' })).toBe('wipe-and-open');
    expect(advise({ lid: 'shut', droplets: 'drops' })).toBe('open-a-finger');
    expect(advise({ lid: 'finger', droplets: 'drops' })).toBe('dry-towel');
    expect(advise({ lid: 'hand', droplets: 'none' })).toBe('close-more');
    expect(advise({ lid: 'finger', towel: 'none' })).toBe('as-it-is');
  });
});
