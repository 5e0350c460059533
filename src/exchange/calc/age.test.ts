import { describe, expect, it } from 'vitest';
import { InputError } from '../../numbers/validity.ts';
import { ageCalc } from './age.ts';

const age = (changes: object = {}) => ageCalc.run(ageCalc.input.parse({ ...ageCalc.example, ...changes }));

describe('calc age', () => {
  it('starts its curve at the mass given and ends it at the answer, band about it', () => {
    const { result } = age();
    expect(ageCalc.result.parse(result)).toEqual(result);
    expect(result.curve[0]).toEqual({ day: 0, massKg: 4, p5: 4, p95: 4 });
    expect(result.curve.at(-1)).toMatchObject({ day: 60, massKg: result.massKg });
    expect(result.lossPercent).toBeCloseTo(100 * (1 - result.massKg / 4), 12);
    expect(result.lossPercentSpan.p5).toBeLessThan(result.lossPercent);
    expect(result.lossPercentSpan.p95).toBeGreaterThan(result.lossPercent);
    expect(result.leakFactor).toBe(1);
  });

  it('goes on from the last weighing, with a narrower band', () => {
    const before = age().result.lossPercentSpan;
    const { result, cautions } = age({ weighings: [{ day: 20, massKg: 3.8 }] });
    expect(result.curve.find(({ day }) => day === 20)?.massKg).toBeCloseTo(3.8, 9);
    expect(result.leakFactor).toBeGreaterThan(1.2);
    expect(result.lossPercentSpan.p95 - result.lossPercentSpan.p5).toBeLessThan((before.p95 - before.p5) / 2);
    expect(cautions.map(({ code }) => code)).toEqual([]);
    expect(age().cautions.map(({ code }) => code)).toEqual(['age-weigh']);
  });

  it('tells dry rooms for moist rinds, rooms in which nothing dries, and sizes that do not fit the mass', () => {
    const codes = (changes: object): string[] => age(changes).cautions.map(({ code }) => code);
    expect(codes({ rind: 'washed', relativeHumidityPercent: 80 })).toContain('age-room-dry');
    expect(codes({ relativeHumidityPercent: 98 })).toContain('age-no-drying');
    expect(codes({ massKg: 3 })).toContain('age-size');
  });

  it('refuses centimetres for millimetres, a cheese that gains, and a room hotter than any', () => {
    expect(() => age({ mm: [22, 10] })).toThrow(/mm/);
    expect(() => age({ weighings: [{ day: 3, massKg: 4.5 }] })).toThrow('weighings[0].massKg');
    try {
      age({ temperatureC: 45 });
      throw new Error('answered');
    } catch (error) {
      expect(error instanceof InputError && error.outsideModel).toBe(true);
    }
  });

  it('answers for no days at all with the cheese as it is', () => {
    expect(age({ days: 0 }).result).toMatchObject({ massKg: 4, lossPercent: 0, curve: [{ day: 0, massKg: 4 }] });
  });
});
