import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { InputError } from '../../numbers/validity.ts';
import type { CalcAnswer, Calculator } from './calculator.ts';
import { brineCalc } from './brine.ts';
import { brineTimeCalc } from './brine-time.ts';
import { drySaltCalc } from './dry-salt.ts';
import { measureCalc } from './measure.ts';
import { scaldCalc } from './scald.ts';
import { waterActivityCalc } from './water-activity.ts';

function ask<I extends z.ZodType, R extends z.ZodType>(
  calculator: Calculator<I, R>,
  input: z.input<I>,
): CalcAnswer<z.output<R>> {
  return calculator.run(calculator.input.parse(input));
}

describe('every calculator of salt, heat on skin and measures', () => {
  it('takes a rind too thin to be one for none', () => {
    const hours = (skinMm: number): number => ask(brineTimeCalc, { ...brineTimeCalc.example, skinMm }).result.hours; // prettier-ignore
    for (const thin of [1e-300, 1e-16, 1e-9]) expect(hours(thin)).toBe(hours(0));
    expect(hours(1e-5)).toBeCloseTo(hours(0), 4);
  });

  it('answers its own example with a result of the stated form, its assumptions and its sources', () => {
    const check = <I extends z.ZodType, R extends z.ZodType>(calculator: Calculator<I, R>): void => {
      const answer = ask(calculator, calculator.example);
      expect(calculator.result.safeParse(answer.result).success, calculator.name).toBe(true);
      expect(answer.assumptions.length + answer.sources.length, calculator.name).toBeGreaterThan(0);
      expect(calculator.input.safeParse({ ...Object(calculator.example), nonsense: 1 }).success, calculator.name).toBe(
        false,
      );
      expect(calculator.input.safeParse({}).success, calculator.name).toBe(false);
    };
    check(brineCalc);
    check(brineTimeCalc);
    check(drySaltCalc);
    check(waterActivityCalc);
    check(scaldCalc);
    check(measureCalc);
  });
});

describe('the brine calculator', () => {
  it('gives 2.04 kg of salt and 9.28 kg of water for ten litres at 18 %', () => {
    const { result } = ask(brineCalc, { strength: 18, strengthUnit: 'percent-by-mass', brineL: 10 });
    expect(result.saltKg).toBeCloseTo(2.04, 2);
    expect(result.waterKg).toBeCloseTo(9.28, 2);
    expect(result.gPerLWater).toBeCloseTo(219, 0);
    expect(result.saturationPercent).toBeCloseTo(68.2, 1);
    expect(result.baume).toBeCloseTo(17.3, 1);
    expect(result.freezingC).toBeCloseTo(-14.1, 1);
    expect(result.waterActivity).toBeCloseTo(0.8619, 4);
  });

  it('has no freezing point above the eutectic and says when the salt will hardly dissolve', () => {
    const answer = ask(brineCalc, { strength: 26, strengthUnit: 'percent-by-mass', brineL: 10 });
    expect(answer.result.freezingC).toBeNull();
    expect(answer.cautions.map(({ code }) => code)).toContain('brine-near-saturation');
  });

  it('reads a float at its own temperature, and refuses a temperature for what is weighed', () => {
    const cold = ask(brineCalc, { strength: 1132, strengthUnit: 'density', brineL: 1, temperatureC: 20, readAtC: 5 });
    const warm = ask(brineCalc, { strength: 1132, strengthUnit: 'density', brineL: 1, temperatureC: 20 });
    expect(cold.result.percentByMass).toBeLessThan(warm.result.percentByMass - 0.5);
    expect(
      brineCalc.input.safeParse({ strength: 18, strengthUnit: 'percent-by-mass', brineL: 1, readAtC: 5 }).success,
    ).toBe(false);
  });

  it('refuses 35 % by mass', () => {
    expect(() => ask(brineCalc, { strength: 35, strengthUnit: 'percent-by-mass', brineL: 1 })).toThrow(InputError);
  });
});

describe('the brine-time calculator', () => {
  const ball = { shape: 'sphere' as const, mm: [61], moisturePercent: 57, brinePercent: 18, temperatureC: 10 };

  it('finds the time for a salt, and the salt for that time', () => {
    const { result } = ask(brineTimeCalc, { ...ball, targetSaltPercent: 1 });
    expect(result.hours).toBeGreaterThan(0.7);
    expect(result.hours).toBeLessThan(1.2);
    expect(ask(brineTimeCalc, { ...ball, hours: result.hours }).result.saltPercent).toBeCloseTo(1, 6);
    expect(result.spans.hours.p5).toBeLessThan(result.hours);
    expect(result.spans.hours.p95).toBeGreaterThan(result.hours);
  });

  it('keeps the salt of brine and cheese together', () => {
    const brineKg = 1;
    const { result } = ask(brineTimeCalc, { ...ball, hours: 1, brineKg, massKg: 0.125 });
    const cheeseKg = 0.125 * (1 + result.massChangePercent / 100);
    const inCheese = (cheeseKg * result.saltPercent) / 100;
    const inBrine = ((brineKg + 0.125 - cheeseKg) * result.brinePercentAfter) / 100;
    expect(inCheese + inBrine).toBeCloseTo(0.18, 9);
    expect(result.saltToAddKg).toBeGreaterThan(inCheese);
  });

  it('refuses a mass that does not fit the size, a shape with too few sizes, and both or neither question', () => {
    expect(() => ask(brineTimeCalc, { ...ball, hours: 1, massKg: 0.5 })).toThrow(/massKg.*about 0\.12/);
    expect(() => ask(brineTimeCalc, { ...ball, shape: 'brick', hours: 1 })).toThrow(/three edges/);
    expect(brineTimeCalc.input.safeParse(ball).success).toBe(false);
    expect(brineTimeCalc.input.safeParse({ ...ball, hours: 1, targetSaltPercent: 1 }).success).toBe(false);
    expect(() => ask(brineTimeCalc, { ...ball, brinePercent: 30, hours: 1 })).toThrow(/at most 26\.4 %/);
  });

  it('takes a family’s habits, and says what it took', () => {
    const gouda = {
      shape: 'cylinder' as const,
      mm: [220, 100],
      moisturePercent: 42,
      brinePercent: 20,
      temperatureC: 13,
      hours: 48,
    };
    const pressed = ask(brineTimeCalc, { ...gouda, family: 'washed' });
    expect(pressed.assumptions.join(' ')).toContain('skinMm: 1');
    expect(ask(brineTimeCalc, { ...gouda, family: 'washed', skinMm: 0 }).result.saltPercent).toBeGreaterThan(
      pressed.result.saltPercent,
    );
    expect(ask(brineTimeCalc, gouda).result.saltPercent).toBe(pressed.result.saltPercent);
  });

  it('warns of warm brine, weak brine, strong brine and too little of it', () => {
    const codes = (more: object): string[] =>
      ask(brineTimeCalc, { ...ball, hours: 1, ...more }).cautions.map(({ code }) => code);
    expect(codes({ temperatureC: 35 })).toContain('salting-unchecked-temperature');
    expect(codes({ brinePercent: 4, hours: 400 })).toContain('brine-weaker-than-cheese');
    expect(codes({ brinePercent: 25 })).toContain('brine-strong-rind');
    expect(codes({ brineKg: 0.2 })).toContain('brine-drops');
    expect(codes({})).toEqual([]);
  });
});

describe('the other small calculators', () => {
  it('give 15 g of salt a kilogram of unpressed curd for 1.5 %, all kept', () => {
    const { result } = ask(drySaltCalc, {
      curdKg: 1,
      curdMoisturePercent: 60,
      targetSaltPercent: 1.5,
      retention: 1,
      pressedYieldFraction: 1,
    });
    expect(result.saltG).toBeCloseTo(15.23, 2);
    expect(() => ask(drySaltCalc, { curdKg: 1, curdMoisturePercent: 10, targetSaltPercent: 1.5 })).toThrow(InputError);
  });

  it('never claim more of a burn than was timed', () => {
    const { result, cautions } = ask(scaldCalc, { waterC: 80 });
    expect(result).toMatchObject({ secondsToBlister: 1, secondsToDeepBurn: 1, isUpperBound: true });
    expect(cautions.map(({ code }) => code)).toEqual(['scald-upper-bound']);
    expect(ask(scaldCalc, { waterC: 40 }).result.secondsToDeepBurn).toBeNull();
  });

  it('say that a water activity is an estimate', () => {
    const { result, cautions } = ask(waterActivityCalc, { moisturePercent: 50, saltPercent: 2.5 });
    expect(result.waterActivity).toBeCloseTo(0.9718, 4);
    expect(cautions[0]?.code).toBe('water-activity-estimate');
  });

  it('turn units exactly, and spoons with their doubt', () => {
    expect(ask(measureCalc, { value: 100, from: 'C', to: 'F' }).result).toEqual({
      value: 212,
      exact: true,
      span: null,
    });
    expect(ask(measureCalc, { value: 1, from: 'us-gallon', to: 'L' }).result.value).toBeCloseTo(3.785411784, 9);
    const salt = ask(measureCalc, { value: 2, from: 'us-teaspoon', to: 'g', ingredient: 'table-salt' });
    expect(salt.result.exact).toBe(false);
    expect(salt.result.value).toBeCloseTo(12.1, 1);
    expect(salt.result.span?.low).toBeLessThan(12);
    const culture = ask(measureCalc, {
      value: 0.3,
      from: 'g',
      to: 'us-eighth-teaspoon',
      ingredient: 'freeze-dried-culture',
    });
    expect(culture.result.value).toBeCloseTo(1, 1);
    expect(culture.cautions.map(({ code }) => code)).toEqual(['spoon-uncertain']);
    expect(ask(measureCalc, { value: 40, from: 'drop', to: 'mL' }).result.span).toEqual({ low: 1, high: 3 });
  });

  it('refuse to compare what cannot be, and ask for the ingredient where it matters', () => {
    expect(() => ask(measureCalc, { value: 1, from: 'C', to: 'g' })).toThrow(/same kind/);
    expect(() => ask(measureCalc, { value: 1, from: 'us-teaspoon', to: 'g' })).toThrow(/say what it is/);
    expect(measureCalc.input.safeParse({ value: 1, from: 'hogshead', to: 'L' }).success).toBe(false);
  });
});
