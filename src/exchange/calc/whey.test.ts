import { describe, expect, it } from 'vitest';
import { InputError } from '../../numbers/validity.ts';
import { calciumCalc } from './calcium.ts';
import { wheyCalc } from './whey.ts';
import { yieldCalc } from './yield.ts';

const whey = (changes: Record<string, unknown> = {}) =>
  wheyCalc.run(wheyCalc.input.parse({ ...wheyCalc.example, ...changes }));

describe('calc whey', () => {
  it('answers its own example in the shape it promises, from milk to curd of 48 to 62 % moisture', () => {
    const { result } = whey();
    expect(wheyCalc.result.parse(result)).toEqual(result);
    const first = result.curve[0];
    const last = result.curve.at(-1);
    expect(first).toMatchObject({ minute: 0, wheyL: { p50: 0 } });
    expect(first?.curdMoisturePercent.p50).toBeGreaterThan(86);
    expect(last?.minute).toBe(60);
    expect(last?.curdMoisturePercent.p50).toBeGreaterThan(48);
    expect(last?.curdMoisturePercent.p50).toBeLessThan(62);
    expect(last?.wheyL.p50).toBeLessThan(12);
  });

  it('shows at least 8 points either way once the whey is off, and none before the cut', () => {
    const { curve } = whey().result;
    const width = ({ p5, p95 }: { p5: number; p95: number }): number => p95 - p5;
    expect(width(curve[0]?.curdMoisturePercent ?? { p5: 0, p95: 9 })).toBeCloseTo(0, 9);
    expect(width(curve.at(-1)?.curdMoisturePercent ?? { p5: 0, p95: 0 })).toBeGreaterThanOrEqual(15);
  });

  it('gives drier curd warmer, sourer, cut finer and stirred', () => {
    const middle = (changes: Record<string, unknown>): number =>
      whey({ minutes: 30, ...changes }).result.curve.at(-1)?.curdMoisturePercent.p50 ?? Number.NaN;
    const usual = middle({});
    expect(middle({ temperatureProfile: [{ minute: 0, temperatureC: 42 }] })).toBeLessThan(usual);
    expect(middle({ pH: 6.0 })).toBeLessThan(usual);
    expect(middle({ cubeMm: 8 })).toBeLessThan(usual);
    expect(middle({ stirred: 'still' })).toBeGreaterThan(usual);
  });

  it('keeps a long curve short', () => {
    expect(whey({ minutes: 600 }).result.curve.length).toBeLessThanOrEqual(62);
  });

  it('refuses milk of 80 % fat and a profile of 90 °C under their paths', () => {
    expect(() => whey({ milk: { fatPercent: 80 } })).toThrow('milk.fatPercent');
    expect(() => whey({ temperatureProfile: [{ minute: 0, temperatureC: 90 }] })).toThrow(
      'temperatureProfile[0].temperatureC',
    );
    expect(() => whey({ cubeMm: 200 })).toThrow(InputError);
  });
});

describe('calc calcium', () => {
  it('answers its own example in the shape it promises', () => {
    const { result, cautions } = calciumCalc.run(calciumCalc.input.parse(calciumCalc.example));
    expect(calciumCalc.result.parse(result)).toEqual(result);
    expect(result.mL).toBeCloseTo(1.2 / (0.33 * 1.316), 6);
    expect(result.percentOfLegalMaximum).toBeCloseTo(48.5, 1);
    expect(cautions).toEqual([]);
  });

  it('warns above 0.2 g per kg of milk', () => {
    const { cautions } = calciumCalc.run({ milkL: 10, solutionPercent: 33, gPerL: 0.21 });
    expect(cautions.map((each) => each.code)).toEqual(['calcium-max']);
    expect(calciumCalc.run({ milkL: 10, solutionPercent: 33, gPerL: 0.206 }).cautions).toEqual([]);
  });
});

describe('calc yield', () => {
  it('answers its own example in the shape it promises, with the name its moisture allows', () => {
    const { result } = yieldCalc.run(yieldCalc.input.parse(yieldCalc.example));
    expect(yieldCalc.result.parse(result)).toEqual(result);
    expect(result.kgPer100L).toBeGreaterThan(result.kgPer100kg);
    expect(result.names.map((each) => each.id)).toContain('mozzarella');
    expect(result.span.kgPer100kg.p95 / result.kgPer100kg).toBeCloseTo(1.17, 9);
  });

  it('is Van Slyke and Price for Cheddar when nothing else is said', () => {
    const { result, assumptions } = yieldCalc.run(
      yieldCalc.input.parse({ fatPercent: 3.5, caseinPercent: 2.3, moisturePercent: 37 }),
    );
    expect(result.kgPer100kg).toBeCloseTo(9.438, 3);
    expect(assumptions.join('\n')).toMatch(/family: cheddar[\s\S]*van-slyke[\s\S]*±3 %/);
  });

  it('refuses 80 % fat and NaN', () => {
    expect(() =>
      yieldCalc.run(yieldCalc.input.parse({ fatPercent: 80, caseinPercent: 2.5, moisturePercent: 40 })),
    ).toThrow('fatPercent');
    expect(yieldCalc.input.safeParse({ fatPercent: 'x', caseinPercent: 2.5, moisturePercent: 40 }).success).toBe(false);
  });

  it('knows the whey family, and says that its curd drains by another law', () => {
    const parsed = wheyCalc.input.parse({ ...wheyCalc.example, family: 'whey' });
    expect(() => wheyCalc.run(parsed)).toThrow('heat and acid');
  });
});
