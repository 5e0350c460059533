import { describe, expect, it } from 'vitest';
import { rawMilkAge } from './eating-age.ts';

describe('the 60 days of raw-milk cheese', () => {
  it('count only days at 1.7 °C or warmer (21 CFR 133.182)', () => {
    expect(rawMilkAge({ stays: [{ days: 30, temperatureC: 12 }, { days: 20, temperatureC: 1 }] })).toMatchObject({ counted: 30, tooCold: 20, left: 30 }); // prettier-ignore
    expect(rawMilkAge({ stays: [{ days: 60, temperatureC: 1.7 }] }).left).toBe(0);
  });

  it('say how many of them nobody measured', () => {
    expect(rawMilkAge({ stays: [{ days: 10, temperatureC: null }] })).toMatchObject({ unknown: 10, left: 50 });
    expect(() => rawMilkAge({ stays: [{ days: -1, temperatureC: 12 }] })).toThrow(/days/);
  });
});
