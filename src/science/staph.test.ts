import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { staphLogs, staphLogsPerMinKernel, staphRateKernel, staphRatePerH } from './staph.ts';

describe('staphylococci in a slow vat', () => {
  it('grow only where it is warm and not yet acid', () => {
    expect(staphLogsPerMinKernel({ temperatureC: 5, pH: 6.6 })).toBe(0);
    expect(staphLogsPerMinKernel({ temperatureC: 38, pH: 5.3 })).toBe(0);
    expect(staphLogsPerMinKernel({ temperatureC: 50, pH: 6.6 })).toBe(0);
    expect(staphLogsPerMinKernel({ temperatureC: 38, pH: 6 })).toBeGreaterThan(0.012);
  });

  it('count in full where nobody measured the pH', () => {
    const readings = (pH: number | null) =>
      staphLogs({ readings: [0, 120, 240].map((minute) => ({ minute, temperatureC: 38, pH })) });
    expect(readings(null)).toBe(readings(6.6));
    expect(readings(5.2)).toBe(0);
  });

  it('change by no more than the equations disagree where one takes over from the other', () => {
    expect(Math.abs(staphRateKernel(34.0001) / staphRateKernel(34) - 1)).toBeLessThan(0.03);
  });

  it('grow faster the warmer it is up to 40 °C, and never less for a longer time', () => {
    fc.assert(
      fc.property(fc.double({ min: 7.1, max: 39, noNaN: true }), (temperatureC) => {
        expect(staphRateKernel(temperatureC + 1)).toBeGreaterThan(staphRateKernel(temperatureC) * 0.99);
        const hold = (minutes: number): number =>
          staphLogs({ readings: [0, minutes].map((minute) => ({ minute, temperatureC, pH: 6.5 })) });
        expect(hold(120)).toBeCloseTo(2 * hold(60), 9);
      }),
      { seed: 20261125, numRuns: 200 },
    );
  });

  it('have no rate outside what was measured', () => {
    expect(() => staphRatePerH(50)).toThrow(InputError);
    expect(staphRatePerH(32)).toBe(staphRateKernel(32));
  });
});
