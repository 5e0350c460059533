import { describe, expect, it } from 'vitest';
import { InputError } from '../../numbers/validity.ts';
import { standardsCalc } from './standards.ts';
import { yieldCalc } from './yield.ts';

const standards = (input: unknown) => standardsCalc.run(standardsCalc.input.parse(input));

describe('calc standards', () => {
  it('puts every name on one side, the nearest miss first', () => {
    const { result, cautions } = standards(standardsCalc.example);
    expect(standardsCalc.result.parse(result)).toEqual(result);
    expect(result.meets.map(({ id }) => id)).toEqual(
      expect.arrayContaining(['mozzarella', 'codex-soft', 'codex-full-fat']),
    );
    const margins = result.misses.map(({ marginPoints }) => marginPoints);
    expect(margins).toEqual([...margins].sort((a, b) => b - a));
    expect(Math.max(...margins)).toBeLessThanOrEqual(0);
    expect(result.meets.length + result.misses.length).toBeGreaterThan(50);
    expect(cautions.map(({ code, severity }) => `${code} ${severity}`)).toContain('name-needs-pasteurised info');
  });

  it('takes the fat of the cheese or of its dry matter, one of them, and the same answer for both', () => {
    const whole = standards({ moisturePercent: 54, fatPercent: 0.46 * 46 }).result;
    expect(whole.fatInDryMatterPercent).toBeCloseTo(46, 9);
    expect(standardsCalc.input.safeParse({ moisturePercent: 54 }).success).toBe(false);
    expect(
      standardsCalc.input.safeParse({ moisturePercent: 54, fatPercent: 20, fatInDryMatterPercent: 46 }).success,
    ).toBe(false);
    expect(() => standards({ moisturePercent: 60, fatPercent: 45 })).toThrow(InputError);
  });

  it('bars names for raw milk by a stop, and says nothing for pasteurised', () => {
    const told = (milkTreatment: string) =>
      standards({ ...standardsCalc.example, milkTreatment }).cautions.find(
        ({ code }) => code === 'name-needs-pasteurised',
      );
    expect(told('raw')?.severity).toBe('stop');
    expect(told('pasteurised')).toBeUndefined();
  });
});

describe('names of a yield', () => {
  it('come with their margins, and those just missed beside them', () => {
    const { result } = yieldCalc.run(yieldCalc.input.parse(yieldCalc.example));
    expect(yieldCalc.result.parse(result)).toEqual(result);
    for (const name of result.names) expect(name.marginPoints).toBeGreaterThanOrEqual(0);
    for (const name of result.namesJustMissed) expect(name.marginPoints).toBeGreaterThanOrEqual(-5);
    expect(result.names.length).toBeGreaterThan(2);
  });
});
