import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { cardinalShare, rateAtTemperature } from './growth.ts';
import {
  dairyRateKernel,
  interactionRateKernel,
  lacticMMFromPercent,
  listeriaIncrease,
  listeriaValidity,
} from './listeria-growth.ts';
import { listeriaVerdict } from './listeria.ts';

const seed = 20261125;
const cold = { temperatureC: 5 };
const exact = { ...cold, pHError: 0, waterActivityError: 0 };

describe('the category of cheeses that cannot support Listeria', () => {
  it('begins strictly below its figures', () => {
    const grows = (pH: number, waterActivity: number): boolean =>
      listeriaVerdict({ ...exact, pH, waterActivity }).canGrow;
    expect(grows(4.39, 0.99)).toBe(false);
    expect(grows(4.4, 0.99)).toBe(true);
    expect(grows(4.9, 0.935)).toBe(false);
    expect(grows(5, 0.935)).toBe(true);
    expect(grows(4.9, 0.94)).toBe(true);
    expect(grows(6, 0.919)).toBe(false);
    expect(grows(6, 0.92)).toBe(true);
  });

  it('is lost to the error of the meter, and then nobody knows', () => {
    const cheese = { ...cold, pH: 4.35, waterActivity: 0.99 };
    expect(listeriaVerdict(cheese)).toEqual({ canGrow: true, category: 'unknown', rule: 'doubt' });
    expect(listeriaVerdict({ ...cheese, pHError: 0 })).toEqual({
      canGrow: false,
      category: 'cannot-support',
      rule: 'acid',
    });
    expect(listeriaVerdict({ ...cheese, pH: 6 }).category).toBe('supports');
  });

  it('never takes in a cheese that ripens from its rind, however acid its middle', () => {
    expect(listeriaVerdict({ ...exact, pH: 4, waterActivity: 0.9, isSurfaceRipened: true })).toEqual({
      canGrow: true,
      category: 'supports',
      rule: 'surface-ripened',
    });
  });

  it('takes in what is frozen, and only that, without a look at acid or salt', () => {
    expect(listeriaVerdict({ temperatureC: -18, pH: 6.5, waterActivity: 0.99 }).rule).toBe('frozen');
    expect(listeriaVerdict({ temperatureC: -17, pH: 6.5, waterActivity: 0.99 }).canGrow).toBe(true);
  });

  it('is never widened by a larger error', () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        number(4, 6),
        number(0.88, 1),
        number(0, 0.3),
        number(0, 0.03),
        (pH, waterActivity, pHError, waterActivityError) => {
          const cheese = { ...cold, pH, waterActivity };
          const sure = listeriaVerdict({ ...cheese, pHError: 0, waterActivityError: 0 });
          const unsure = listeriaVerdict({ ...cheese, pHError, waterActivityError });
          if (sure.canGrow) expect(unsure.canGrow).toBe(true);
          if (!unsure.canGrow) expect(unsure.category).toBe('cannot-support');
        },
      ),
      { seed, numRuns: 500 },
    );
  });
});

describe('growth of Listeria', () => {
  it('is slower the colder, the more acid and the saltier the cheese is', () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        number(0, 24),
        number(4.8, 6.6),
        number(0.925, 0.99),
        number(0, 60),
        (temperatureC, pH, waterActivity, lacticMM) => {
          const here = { temperatureC, pH, waterActivity, lacticMM };
          for (const rate of [dairyRateKernel, (habitat: typeof here) => interactionRateKernel(habitat).ratePerH]) {
            const now = rate(here);
            const least = now * (1 - 1e-12); // rounding of floating point only
            expect(now).toBeGreaterThanOrEqual(0);
            expect(rate({ ...here, temperatureC: temperatureC + 1 })).toBeGreaterThanOrEqual(least);
            expect(rate({ ...here, pH: pH + 0.1 })).toBeGreaterThanOrEqual(least);
            expect(rate({ ...here, waterActivity: waterActivity + 0.005 })).toBeGreaterThanOrEqual(least);
            expect(rate({ ...here, lacticMM: lacticMM + 10 })).toBeLessThanOrEqual(now * (1 + 1e-12));
          }
          const { p50, p95, cap } = listeriaIncrease({ ...here, days: 20 });
          expect(p95).toBeGreaterThanOrEqual(p50);
          expect(p95).toBeLessThanOrEqual(cap);
        },
      ),
      { seed, numRuns: 500 },
    );
  });

  it('stops where acid, salt and cold together are too much, though none alone is', () => {
    const cheese = { temperatureC: 5, pH: 5.3, waterActivity: 0.985 };
    const lacticMM = lacticMMFromPercent(0.396);
    expect(lacticMM).toBeCloseTo(44, 1);
    expect(interactionRateKernel(cheese).ratePerH).toBeGreaterThan(0.01);
    expect(interactionRateKernel({ ...cheese, lacticMM }).psi).toBeGreaterThan(1);
    expect(interactionRateKernel({ ...cheese, lacticMM }).ratePerH).toBe(0);
  });

  it('gets no more credit for lactic acid at the high end than if nobody had measured it', () => {
    const cheese = { temperatureC: 8, pH: 5.3, waterActivity: 0.985, days: 14 };
    const measured = listeriaIncrease({ ...cheese, lacticMM: 20 });
    const unmeasured = listeriaIncrease(cheese);
    expect(measured.p50).toBeLessThan(unmeasured.p50);
    expect(measured.p95).toBe(unmeasured.p95);
  });

  it('ends at the highest count that was seen, sooner where there were more at the start', () => {
    const long = { temperatureC: 12, pH: 6.4, waterActivity: 0.99, days: 200 };
    expect(listeriaIncrease(long)).toEqual({ p50: 9.2, p95: 9.2, cap: 9.2 });
    expect(listeriaIncrease({ ...long, startLog10PerG: 3 }).p95).toBeCloseTo(4.8, 12);
  });

  it('has no rate outside what was measured', () => {
    const cheese = { temperatureC: 5, pH: 6, waterActivity: 0.98, days: 7 };
    expect(() => listeriaIncrease({ ...cheese, temperatureC: 50 })).toThrow(InputError);
    expect(() => listeriaIncrease({ ...cheese, pH: 3 })).toThrow('pH');
    expect(listeriaValidity['temperatureC']?.low).toBe(-1.7);
  });

  it('is carried between temperatures and back unchanged', () => {
    const there = rateAtTemperature({ rate: 0.075, fromC: 4, toC: 5 });
    expect(rateAtTemperature({ rate: there, fromC: 5, toC: 4 })).toBeCloseTo(0.075, 12);
    expect(cardinalShare({ at: 50, cardinals: { min: 0, best: 37, max: 45 }, order: 2 })).toBe(0);
  });
});
