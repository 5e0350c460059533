/** What holds for every input: nothing is lost and nothing appears. Chance is seeded. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MILK_SPECIES, milkComposition } from '../../src/science/milk.ts';
import { mixed } from '../../src/science/standardise.ts';
import { curdAndWhey, curdBasis, type Parts } from '../../src/science/syneresis-balance.ts';
import { CHEESE_FAMILIES, vatRecovery } from '../../src/science/yield-families.ts';
import { ask, askFor } from '../ask.ts';
import { between, FEW, RUNS } from './runs.ts';

describe('nothing is lost and nothing appears', () => {
  it('curd and whey hold what the milk held, part by part, in every family and milk', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...MILK_SPECIES),
        fc.constantFrom(...CHEESE_FAMILIES),
        between(0.3, 0.85),
        (species, family, wheyFraction) => {
          const milk = milkComposition({ species });
          const basis = curdBasis(milk, vatRecovery(family));
          const { curd, whey } = curdAndWhey({ basis, wheyFraction });
          const start = curdAndWhey({ basis, wheyFraction: 0 });
          const parts = Object.keys(curd) as (keyof Parts)[];
          expect(parts.length).toBeGreaterThan(4);
          for (const part of parts) {
            const before = start.curd[part] + start.whey[part];
            expect(Math.abs(curd[part] + whey[part] - before), part).toBeLessThan(1e-3 * Math.max(before, 1e-6));
          }
        },
      ),
      RUNS,
    );
  });

  it('what the cheese takes from its brine, the brine lacks', () => {
    fc.assert(
      fc.property(between(30, 90), between(8, 24), between(0.5, 30), between(0.5, 5), (mm, brinePercent, hours, kg) => {
        const massKg = (Math.PI / 6) * (mm / 1000) ** 3 * 1060;
        const input = { shape: 'sphere', mm: [mm], moisturePercent: 55, brinePercent, temperatureC: 10, hours };
        const out = ask('brine-time', { ...input, brineKg: kg, massKg });
        const cheeseAfterKg = massKg * (1 + (out['massChangePercent'] ?? 0) / 100);
        const brineAfterKg = kg + massKg - cheeseAfterKg;
        const saltAfterKg =
          (cheeseAfterKg * (out['saltPercent'] ?? 0)) / 100 + (brineAfterKg * (out['brinePercentAfter'] ?? 0)) / 100;
        expect(saltAfterKg / ((kg * brinePercent) / 100)).toBeCloseTo(1, 9);
      }),
      RUNS,
    );
  });

  it('milk and what is added make the mixture, fat and casein alike', () => {
    fc.assert(
      fc.property(between(3.5, 6), between(1, 3.4), between(1, 1000), (milkFatPercent, targetFatPercent, milkL) => {
        const out = ask('standardise', { milkL, milkFatPercent, targetFatPercent, with: 'skim', withFatPercent: 0.1 });
        expect(out['fatPercent']).toBeCloseTo(targetFatPercent, 9);
        const two = mixed([
          { massKg: 3, fatPercent: milkFatPercent, caseinPercent: 2.5 },
          { massKg: out['addKg'] ?? 0, fatPercent: 0.1, caseinPercent: 2.6 },
        ]);
        expect(two.massKg * two.fatPercent).toBeCloseTo(3 * milkFatPercent + (out['addKg'] ?? 0) * 0.1, 6);
      }),
      RUNS,
    );
  });

  it('a wash without metal, loss or drop is plain mixing: the heat is all there', () => {
    fc.assert(
      fc.property(between(5, 100), between(0.1, 0.5), between(45, 95), (vatL, share, waterC) => {
        const out = ask('wash', {
          vatL, vatC: 37, drawL: share * vatL, waterC, addL: share * vatL, lossWPerK: 0, arrivalDropC: 0, potKg: 0,
        }); // prettier-ignore
        expect(Math.abs((out['finalC'] ?? 0) - (out['idealFinalC'] ?? 0))).toBeLessThan(0.05);
      }),
      RUNS,
    );
  });

  it('a bowl that loses nothing brings curd and water together at the plain balance', () => {
    fc.assert(
      fc.property(
        between(0.2, 5),
        between(20, 40),
        between(52, 62),
        between(75, 95),
        (curdKg, curdC, targetC, waterC) => {
          const input = { curdKg, curdC, targetC, waterC, bowlWPerK: 0, pieceMm: 5 };
          for (const path of ['mixC', 'curve.-1.waterC', 'curve.-1.meanC']) {
            expect(askFor(path, { name: 'stretch-water', input }), path).toBeCloseTo(targetC, 2);
          }
        },
      ),
      FEW,
    );
  });
});
