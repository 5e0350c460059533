import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { ballDiameterMm, type Body } from './body.ts';
import { cheeseAfter, iceKg, minutesToCore, pieceKg, stillWaterTransfer } from './cooling.ts';

const ball = (kg: number): Body => ({ shape: 'sphere', mm: [ballDiameterMm(kg / 1050)] });
const iced = { fromC: 58, bathC: 1 };

describe('cooling a cheese', () => {
  it('is the core after as many minutes as the core was said to need', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<Body>(ball(0.125), { shape: 'cylinder', mm: [120, 85] }, { shape: 'brick', mm: [100, 80, 48] }),
        fc.double({ min: 2, max: 57, noNaN: true }),
        (body, targetCoreC) => {
          const minutes = minutesToCore({ ...iced, body, targetCoreC });
          expect(cheeseAfter({ ...iced, body, minutes }).coreC).toBeCloseTo(targetCoreC, 3);
        },
      ),
      { seed: 20261125, numRuns: 60 },
    );
  });

  it('takes longer with size, squared for the thinnest way, and hardly less in a stirred bath', () => {
    const small = minutesToCore({ ...iced, body: ball(0.125), targetCoreC: 20 });
    const big = minutesToCore({ ...iced, body: ball(1), targetCoreC: 20 });
    expect(big / small).toBeGreaterThan(3.5);
    expect(big / small).toBeLessThan(4);
    const stirred = minutesToCore({ ...iced, body: ball(1), targetCoreC: 20, isStirred: true });
    expect(stirred / big).toBeGreaterThan(0.85);
    expect(stirred / big).toBeLessThan(1);
  });

  it('leaves the core warmest and the surface coldest', () => {
    const after = cheeseAfter({ ...iced, body: ball(0.25), minutes: 20 });
    expect(after.coreC).toBeGreaterThan(after.meanC);
    expect(after.meanC).toBeGreaterThan(after.surfaceC);
    expect(after.surfaceC).toBeGreaterThan(1);
  });

  it('also warms a cold cheese', () => {
    const minutes = minutesToCore({ body: ball(0.25), fromC: 4, bathC: 20, targetCoreC: 15 });
    expect(minutes).toBeGreaterThan(10);
    expect(minutesToCore({ body: ball(0.25), fromC: 4, bathC: 20, targetCoreC: 3 })).toBe(0);
  });

  it('cannot go below its bath', () => {
    expect(() => minutesToCore({ ...iced, body: ball(0.1), targetCoreC: 0.5 })).toThrow(InputError);
    expect(() => cheeseAfter({ ...iced, body: { shape: 'sphere', mm: [60, 30] }, minutes: 5 })).toThrow(/diameter/);
    expect(() => cheeseAfter({ ...iced, fromC: 137, body: ball(0.1), minutes: 5 })).toThrow(/fromC 137 °C/);
  });
});

describe('ice', () => {
  it('is about 0.44 kg a kilogram of cheese, and about a kilogram with three litres of tap water', () => {
    // Our own calculation (no source): 0.45 and 0.97 kg.
    const base = { cheeseKg: 1, cheeseKJPerKgK: 3.1, fromC: 58, toMeanC: 10, bathC: 1, bathStartC: 15, minutes: 0 };
    expect(iceKg({ ...base, bathL: 0 })).toBeCloseTo(0.44, 2);
    expect(iceKg({ ...base, bathL: 3 })).toBeCloseTo(0.96, 2);
    expect(iceKg({ ...base, bathL: 10, minutes: 60 }) - iceKg({ ...base, bathL: 10 })).toBeCloseTo(0.365, 2);
    expect(iceKg({ ...base, cheeseKg: 0, bathL: 3, bathStartC: 1 })).toBe(0);
  });

  it('knows what a ball weighs', () => {
    expect(pieceKg({ body: ball(0.125), densityKgPerM3: 1050 })).toBeCloseTo(0.125, 9);
  });
});

describe('still iced water', () => {
  it('takes heat from a hot surface five times as fast as from a cold one', () => {
    // Our own calculation (no source): 800, 540, 310 and about 155 W/(m2 K) for a 7 cm ball in 1 °C water.
    const at = (surfaceC: number): number => stillWaterTransfer({ diameterMm: 70, surfaceC, bathC: 1 });
    expect(at(50)).toBeCloseTo(802, -1);
    expect(at(30)).toBeCloseTo(537, -1);
    expect(at(15)).toBeCloseTo(310, -1);
    expect(at(8)).toBeCloseTo(153, -1);
    expect(at(3)).toBeCloseTo(159, -1);
    expect(() => stillWaterTransfer({ diameterMm: 70, surfaceC: 120, bathC: 1 })).toThrow(InputError);
  });
});
