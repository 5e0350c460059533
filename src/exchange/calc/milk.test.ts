import { describe, expect, it } from 'vitest';
import { InputError } from '../../numbers/validity.ts';
import { acidityUnitsCalc } from './acidity-units.ts';
import { acidCalc } from './acid.ts';
import { milkCalc } from './milk.ts';

const milk = (input: unknown) => milkCalc.run(milkCalc.input.parse(input));
const acid = (input: unknown) => acidCalc.run(acidCalc.input.parse(input));
const units = (input: unknown) => acidityUnitsCalc.run(acidityUnitsCalc.input.parse(input));

/** Fields complained of, and whether the complaint is about the model's range only. */
function refusal(run: () => unknown): { fields: string[]; outsideModel: boolean } | null {
  try {
    run();
    return null;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { fields: error.problems.map((problem) => problem.field), outsideModel: error.outsideModel };
  }
}

describe('calc milk', () => {
  it('answers its own example in the shape it promises, and says what it assumed', () => {
    const { result, assumptions } = milk(milkCalc.example);
    expect(milkCalc.result.parse(result)).toEqual(result);
    expect(result.caseinPercent).toBeCloseTo(0.78 * 3.4, 6);
    expect(Math.abs(result.densityKgPerM3 - 1030)).toBeLessThan(2);
    expect(assumptions.join('\n')).toMatch(/caseinPercent: 2.65 \(from the protein\)[\s\S]*pH: 6.64[\s\S]*20 °C/);
  });

  it('refuses fat of 80 % by its own field name, and knows no field it was not told of', () => {
    expect(refusal(() => milk({ species: 'cow', fatPercent: 80 }))).toEqual({
      fields: ['fatPercent'],
      outsideModel: true,
    });
    expect(milkCalc.input.safeParse({ species: 'cow', fat: 4 }).success).toBe(false);
    expect(milkCalc.input.safeParse({ species: 'cow', fatPercent: Number.NaN }).success).toBe(false);
    expect(milkCalc.input.safeParse({ species: 'cow', temperatureC: 200 }).success).toBe(false);
  });

  it('says so near the edge of what was measured', () => {
    expect(milk({ species: 'sheep', fatPercent: 14.6 }).cautions.map((each) => each.code)).toEqual([
      'near-edge-of-validity',
    ]);
  });
});

describe('calc acid', () => {
  it('answers its own example in the shape it promises: 1.3 to 1.6 g of citric acid a litre to pH 5.6', () => {
    const { result, cautions } = acid(acidCalc.example);
    expect(acidCalc.result.parse(result)).toEqual(result);
    expect(result.span.gPerL.quick).toBeGreaterThan(1.3);
    expect(result.span.gPerL.slow).toBeLessThan(1.75);
    expect(result.gPerL).toBeGreaterThan(result.span.gPerL.quick);
    expect(cautions.map((each) => each.code)).toContain('acid-four-fifths');
  });

  it('counts vinegar as poured: 24 to 29 mL a litre at 5 %, half as much at 10 %', () => {
    const { result, assumptions } = acid({ milk: { species: 'cow' }, acid: 'vinegar', targetPH: 5.6 });
    expect(result.span.gPerL.quick).toBeGreaterThan(23);
    expect(result.span.gPerL.slow).toBeLessThan(31);
    expect(assumptions.join('\n')).toContain('vinegar: 5 %');
    const strong = acid({ milk: { species: 'cow' }, acid: 'vinegar', vinegarPercent: 10, targetPH: 5.6 }).result;
    expect(strong.gPerL).toBeCloseTo(result.gPerL / 2, 9);
    expect(strong.mmolPerL).toBeCloseTo(result.mmolPerL, 9);
  });

  it('lands where it was worked out to land', () => {
    const { gPerL } = acid(acidCalc.example).result.span;
    const { result } = acid({ milk: { species: 'cow' }, acid: 'citric', gPerL: gPerL.quick });
    expect(result.span.pH.quick).toBeCloseTo(5.6, 5);
    expect(result.span.pH.slow).toBeGreaterThan(5.6);
  });

  it('wants one target, and a milk it knows; fields come back under the names given', () => {
    expect(refusal(() => acid({ milk: { species: 'cow' }, acid: 'citric' }))?.fields).toEqual(['targetPH']);
    expect(
      refusal(() => acid({ milk: { species: 'cow' }, acid: 'citric', targetPH: 5.6, gPerL: 1 }))?.outsideModel,
    ).toBe(false);
    expect(refusal(() => acid({ milk: { species: 'cow' }, acid: 'citric', targetPH: 3 }))).toEqual({
      fields: ['targetPH'],
      outsideModel: true,
    });
    expect(
      refusal(() => acid({ milk: { species: 'cow', fatPercent: 80 }, acid: 'citric', targetPH: 5.6 }))?.fields,
    ).toEqual(['milk.fatPercent']);
    expect(refusal(() => acid({ ...acidCalc.example, vinegarPercent: 5 }))?.fields).toEqual(['vinegarPercent']);
  });
});

describe('calc acidity-units', () => {
  it('answers its own example in the shape it promises', () => {
    const { result } = units(acidityUnitsCalc.example);
    expect(acidityUnitsCalc.result.parse(result)).toEqual(result);
    expect(result.soxhletHenkel).toBeCloseTo(8, 10);
  });

  it('wants exactly one reading, and not that of vinegar', () => {
    expect(refusal(() => units({}))?.outsideModel).toBe(false);
    expect(refusal(() => units({ dornic: 18, thorner: 20 }))?.fields).toEqual(['thorner']);
    expect(refusal(() => units({ percentLactic: 5 }))).toEqual({ fields: ['percentLactic'], outsideModel: true });
  });
});
