import { describe, expect, it } from 'vitest';
import { InputError } from '../../numbers/validity.ts';
import { rennetCalc } from './rennet.ts';

const run = (input: unknown) => rennetCalc.run(rennetCalc.input.parse(input));

describe('calc rennet', () => {
  it('answers its own example in the shape it promises', () => {
    const { result } = run(rennetCalc.example);
    expect(rennetCalc.result.parse(result)).toEqual(result);
    expect(result.mL).toBeCloseTo(2.7, 9);
    expect(result.span.mL).toEqual({ p5: result.mL, p95: result.mL });
  });

  it('takes an unknown bottle as an ordinary answer: a band, said in the assumptions', () => {
    const { result, assumptions, cautions } = run({ milkL: 10 });
    expect(result.doseIMCUPerL).toBe(45);
    expect(result.span.mL?.p5).toBeLessThan(result.mL ?? 0);
    expect(result.span.mL?.p95).toBeGreaterThan(result.mL ?? 0);
    expect(result.span.doseIMCUPerL.p5).toBeLessThan(45);
    expect(assumptions.join('\n')).toMatch(/200 IMCU\/mL.*100 and 280/);
    expect(cautions.map((each) => each.code)).toEqual(['rennet-strength-unknown']);
  });

  it('warns of drops where one drop is more than a twentieth of the dose', () => {
    expect(run({ milkL: 2, strengthIMCUPerML: 200 }).cautions.map((each) => each.code)).toContain('rennet-drop-coarse');
    expect(run({ milkL: 20, strengthIMCUPerML: 200 }).cautions).toEqual([]);
  });

  it('gives powder in grams and no millilitres', () => {
    const { result } = run({ milkL: 10, form: 'powder' });
    expect(result).toMatchObject({ mL: null, drops: null, unit: 'g' });
    expect(result.span.mL).toBeNull();
  });

  it('refuses bad input: unknown field, no milk, a mad strength under its own name', () => {
    expect(rennetCalc.input.safeParse({ milkL: 10, brand: 'x' }).success).toBe(false);
    expect(rennetCalc.input.safeParse({ milkL: 0 }).success).toBe(false);
    expect(rennetCalc.input.safeParse({ milkL: Number.NaN }).success).toBe(false);
    expect(() => run({ milkL: 10, strengthIMCUPerML: 90000 })).toThrow(InputError);
    expect(() => run({ milkL: 10, strengthIMCUPerML: 90000 })).toThrow('strengthIMCUPerML');
  });
});
