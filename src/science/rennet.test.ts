import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { rennetDose, rennetKeptFraction, rennetStrengthAt, RENNET_FORMS } from './rennet.ts';
import { rennetStrengthFromAssay } from './rennet-assay.ts';

describe('rennet dose', () => {
  it('takes 2.25 mL of an unknown bottle for 10 L, and says 1.6 to 4.5 would do the same', () => {
    const dose = rennetDose({ milkL: 10 });
    expect(dose.amount).toBeCloseTo(2.25, 9);
    expect(dose.strengthKnown).toBe(false);
    expect(dose.amountSpan.p5).toBeCloseTo(450 / 280, 9);
    expect(dose.amountSpan.p95).toBeCloseTo(4.5, 9);
    expect(dose.doseSpan.p5).toBeCloseTo(22.5, 9);
    expect(dose.doseSpan.p95).toBeCloseTo(63, 9);
    expect(dose.drops).toBeCloseTo(45, 9);
    expect(dose.dropsSpan?.p5).toBeCloseTo((450 / 280) * 10, 9);
    expect(dose.dilutionWaterMl).toBeCloseTo(45, 9);
  });

  it('has no span where the strength is known and the drops were counted', () => {
    const dose = rennetDose({ milkL: 10, strengthImcu: 180, dropsPerMl: 26 });
    expect(dose.amountSpan.p5).toBeCloseTo(dose.amount, 12);
    expect(dose.amountSpan.p95).toBeCloseTo(dose.amount, 12);
    expect(dose.dropsSpan?.p95).toBeCloseTo(dose.amount * 26, 9);
    expect(dose.doseSpan.p95).toBeCloseTo(45, 9);
  });

  it('grows with the milk and with the age of the bottle', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 200, noNaN: true }),
        fc.double({ min: 0, max: 24, noNaN: true }),
        fc.double({ min: 0, max: 25, noNaN: true }),
        (milkL, monthsStored, storedC) => {
          const dose = rennetDose({ milkL, monthsStored, storedC });
          expect(rennetDose({ milkL: 2 * milkL, monthsStored, storedC }).amount).toBeCloseTo(2 * dose.amount, 6);
          expect(rennetDose({ milkL, monthsStored: monthsStored + 1, storedC }).amount).toBeGreaterThan(dose.amount);
          expect(dose.amount * dose.strengthNowImcu).toBeCloseTo(45 * milkL, 6);
        },
      ),
      { seed: 20261125, numRuns: 100 },
    );
  });

  it('counts powder in grams and tablets in tablets, never in drops', () => {
    expect(rennetDose({ milkL: 10, form: 'powder' })).toMatchObject({ unit: 'g', drops: null, dropFraction: null });
    expect(rennetDose({ milkL: 10, form: 'tablet' }).amount).toBeCloseTo(450 / 1300, 9);
  });

  it('sees that one drop is far too much for a cup of milk', () => {
    expect(rennetDose({ milkL: 0.1 }).dropFraction).toBeGreaterThan(1);
    expect(rennetDose({ milkL: 20 }).dropFraction).toBeLessThan(0.05);
  });

  it('refuses no milk at all and a strength nobody sells', () => {
    expect(() => rennetDose({ milkL: 0 })).toThrow(InputError);
    expect(() => rennetDose({ milkL: 10, strengthImcu: 1 })).toThrow('strengthImcu');
  });
});

describe('strength of rennet', () => {
  it('of an unknown bottle lies between 100 and 280 in nine of ten, with 200 in the middle', () => {
    expect(rennetStrengthAt({ form: 'liquid', z: 0 })).toBe(200);
    expect(rennetStrengthAt({ form: 'liquid', z: -1.645 })).toBeCloseTo(100, 9);
    expect(rennetStrengthAt({ form: 'liquid', z: 1.645 })).toBeCloseTo(280, 9);
  });

  it('rises with the deviate for every form', () => {
    for (const form of RENNET_FORMS) {
      const strengths = [-2, -1, -0.1, 0, 0.1, 1, 2].map((z) => rennetStrengthAt({ form, z }));
      expect(strengths.toSorted((a, b) => a - b)).toEqual(strengths);
    }
  });

  it('fades a hundredth a month in the fridge, and faster in the kitchen', () => {
    expect(rennetKeptFraction({ months: 1, temperatureC: 4 })).toBeCloseTo(Math.exp(-0.01), 12);
    expect(rennetKeptFraction({ months: 6, temperatureC: 20 })).toBeCloseTo(Math.exp(-0.15), 12);
    expect(rennetKeptFraction({ months: 0, temperatureC: 20 })).toBe(1);
  });
});

describe('a cup test of rennet', () => {
  const cup = { milkMl: 200, rennetMl: 0.05, temperatureC: 31, flocculationMin: 15, pH: 6.6 };

  it('finds the strength that the clotting model would need', () => {
    // 15 min at 31 °C and pH 6.6 in pasteurised milk: a little over 50 IMCU/L, so 50 * 0.2 L / 0.05 mL
    const { strengthImcuPerMl, makesCurd } = rennetStrengthFromAssay(cup);
    expect(strengthImcuPerMl.p50).toBeCloseTo(200 * 1.07, 6);
    expect(strengthImcuPerMl.p5).toBeLessThan(strengthImcuPerMl.p50);
    expect(makesCurd).toBe('yes');
  });

  it('calls slow rennet weaker, and hopeless rennet no rennet', () => {
    expect(rennetStrengthFromAssay({ ...cup, flocculationMin: 60 }).makesCurd).toBe('weak');
    expect(rennetStrengthFromAssay({ ...cup, flocculationMin: 230 }).makesCurd).toBe('no');
  });

  it('trusts drops less than millilitres', () => {
    const { rennetMl: _ml, ...rest } = cup;
    const byDrops = rennetStrengthFromAssay({ ...rest, drops: 1 }).strengthImcuPerMl;
    const byMl = rennetStrengthFromAssay(cup).strengthImcuPerMl;
    expect(byDrops.p50).toBeCloseTo(byMl.p50, 9);
    expect(byDrops.p95 / byDrops.p5).toBeGreaterThan(byMl.p95 / byMl.p5);
  });

  it('asks for millilitres or drops, not both and not neither', () => {
    expect(() => rennetStrengthFromAssay({ ...cup, drops: 2 })).toThrow(InputError);
    const { rennetMl: _ml, ...rest } = cup;
    expect(() => rennetStrengthFromAssay(rest)).toThrow('rennetMl is missing');
  });
});
