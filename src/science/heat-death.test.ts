import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { CULTURES } from './culture.ts';
import { cultureSurvival, rennetActive } from './heat-death.ts';

describe('an overheated vat', () => {
  it('kills nothing up to the highest temperature at which the culture grows', () => {
    for (const kind of ['thermophilic', 'thermophilic-helveticus', 'mesophilic'] as const) {
      const { temperatureMaxC } = CULTURES[kind];
      expect(cultureSurvival({ kind, temperatureC: temperatureMaxC, minutes: 600 })).toEqual({ p5: 1, p50: 1, p95: 1 });
    }
    expect(rennetActive({ temperatureC: 42, minutes: 600 })).toBe(1);
  });

  it('kills more the hotter it is, the longer it lasts, and mesophiles before thermophiles', () => {
    const left = (kind: 'thermophilic' | 'mesophilic', temperatureC: number, minutes: number): number =>
      cultureSurvival({ kind, temperatureC, minutes }).p50;
    expect(left('thermophilic', 60, 20)).toBeLessThan(left('thermophilic', 57, 20));
    expect(left('thermophilic', 60, 20)).toBeLessThan(left('thermophilic', 60, 5));
    expect(left('mesophilic', 55, 10)).toBeLessThan(left('thermophilic', 55, 10));
    expect(rennetActive({ temperatureC: 55, minutes: 10 })).toBeLessThan(
      rennetActive({ temperatureC: 50, minutes: 10 }),
    );
  });

  it('says how little it knows: between the hardiest and the weakest lots lies nearly everything', () => {
    const { p5, p50, p95 } = cultureSurvival({ kind: 'thermophilic', temperatureC: 60, minutes: 14 });
    expect(p50).toBeCloseTo(0.1, 3);
    expect(p5).toBeLessThan(0.001);
    expect(p95).toBeGreaterThan(0.6);
  });

  it('refuses what was never measured', () => {
    expect(() => cultureSurvival({ kind: 'mesophilic', temperatureC: 85, minutes: 5 })).toThrow(InputError);
    expect(() => rennetActive({ temperatureC: 50, minutes: 5000 })).toThrow(/minutes/);
  });
});
