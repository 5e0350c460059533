import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import {
  brineDensityKgPerM3,
  brineFreezingC,
  saltFractionFromDensityKernel,
  saturationSaltFraction,
  sodiumChlorideWaterActivity,
} from './brine.ts';
import {
  brineAfterBatch,
  brineToMake,
  newBrineDressing,
  saltToStrengthenKg,
  waterToDiluteKg,
} from './brine-amounts.ts';
import { readingsOfPercent, saltFractionFrom, STRENGTH_UNITS, strengthInEveryUnit } from './brine-strength.ts';

const saltFractions = fc.double({ min: 0.001, max: 0.26, noNaN: true });
const temperatures = fc.double({ min: 0, max: 40, noNaN: true });
const settings = { seed: 20261125, numRuns: 300 };

describe('a brine', () => {
  it('gives its strength back from its density at any temperature', () => {
    fc.assert(
      fc.property(saltFractions, temperatures, (saltFraction, temperatureC) => {
        const densityKgPerM3 = brineDensityKgPerM3({ saltFraction, temperatureC });
        expect(saltFractionFromDensityKernel({ densityKgPerM3, temperatureC })).toBeCloseTo(saltFraction, 9);
      }),
      settings,
    );
  });

  it('is the same brine in whichever unit its strength is said', () => {
    fc.assert(
      fc.property(
        saltFractions,
        temperatures,
        fc.constantFrom(...STRENGTH_UNITS),
        (saltFraction, temperatureC, unit) => {
          const said = strengthInEveryUnit({ saltFraction, temperatureC });
          const number = {
            'percent-by-mass': said.percentByMass,
            'g-per-L-water': said.gPerLWater,
            'g-per-L-brine': said.gPerLBrine,
            'saturation-percent': said.saturationPercent,
            baume: said.baume,
            density: said.densityKgPerM3,
          }[unit];
          expect(saltFractionFrom({ strength: number, strengthUnit: unit, temperatureC })).toBeCloseTo(saltFraction, 7);
        },
      ),
      settings,
    );
  });

  it('floats a hydrometer higher when it is colder, and the strength found stays the same', () => {
    fc.assert(
      fc.property(saltFractions, temperatures, (saltFraction, temperatureC) => {
        const densityKgPerM3 = brineDensityKgPerM3({ saltFraction, temperatureC });
        const gravity = densityKgPerM3 / 999.016; // water at 60 °F
        const found = saltFractionFrom({
          strength: 145 - 145 / gravity,
          strengthUnit: 'baume',
          temperatureC: 20,
          readAtC: temperatureC,
        });
        expect(found).toBeCloseTo(saltFraction, 4);
      }),
      settings,
    );
  });

  it('of 18 % freezes near -14 °C, and no freezing point is given above the eutectic', () => {
    expect(brineFreezingC({ saltFraction: 0 })).toBeCloseTo(0, 2);
    expect(brineFreezingC({ saltFraction: 0.18 })).toBeCloseTo(-14.1, 1);
    expect(() => brineFreezingC({ saltFraction: 0.24 })).toThrow(InputError);
  });

  it('holds a little more salt when warm, and its water is less free the more salt it holds', () => {
    expect(saturationSaltFraction(40)).toBeGreaterThan(saturationSaltFraction(5));
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 35, noNaN: true }),
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        (salt, more) => {
          expect(sodiumChlorideWaterActivity(salt + more)).toBeLessThan(sodiumChlorideWaterActivity(salt));
        },
      ),
      settings,
    );
  });

  it('of "35 %" by mass is refused with the reading that was meant', () => {
    expect(() => saltFractionFrom({ strength: 35, strengthUnit: 'percent-by-mass', temperatureC: 20 })).toThrow(
      /at most 26\.4 % by mass.*grams of salt for the water alone/s,
    );
    expect(100 * saltFractionFrom({ strength: 350, strengthUnit: 'g-per-L-water', temperatureC: 20 })).toBeCloseTo(
      26,
      1,
    );
    expect(() => saltFractionFrom({ strength: 980, strengthUnit: 'density', temperatureC: 20 })).toThrow(
      /lighter than water/,
    );
    expect(() => saltFractionFrom({ strength: 18, strengthUnit: 'percent-by-mass', temperatureC: 70 })).toThrow(
      /0 to 40/,
    );
  });

  it('called "18 %" can mean anything from 4.75 to 18.8 % by mass', () => {
    const readings = readingsOfPercent({ percent: 18, temperatureC: 20 });
    expect(readings.map(({ meaning }) => meaning)).toEqual([
      'by-mass',
      'baume',
      'g-per-100-mL-brine',
      'g-per-100-mL-water',
      'of-saturation',
    ]);
    const expected = [18, 18.8, 16.1, 15.3, 4.75];
    readings.forEach(({ percentByMass }, i) => expect(Math.abs(percentByMass - (expected[i] ?? 0))).toBeLessThan(0.06));
    // 27 % by mass or in °Bé cannot exist; the other three can.
    expect(readingsOfPercent({ percent: 27, temperatureC: 20 }).map(({ meaning }) => meaning)).not.toContain('by-mass');
  });
});

describe('the amounts of a brine', () => {
  it('for ten litres at 18 % are 2.04 kg of salt and 9.28 kg of water, more of salt when the salt is damp', () => {
    const { saltKg, waterKg, massKg } = brineToMake({ volumeL: 10, saltFraction: 0.18, temperatureC: 20 });
    expect(saltKg).toBeCloseTo(2.037, 3);
    expect(waterKg).toBeCloseTo(9.28, 2);
    const damp = brineToMake({ volumeL: 10, saltFraction: 0.18, temperatureC: 20, saltMoistureFraction: 0.03 });
    expect(damp.saltKg * 0.97).toBeCloseTo(saltKg, 9);
    expect(damp.saltKg + damp.waterKg).toBeCloseTo(massKg, 9);
  });

  it('keep salt and water in balance when a brine is strengthened or thinned', () => {
    fc.assert(
      fc.property(saltFractions, saltFractions, fc.double({ min: 0.1, max: 100, noNaN: true }), (x1, x2, massKg) => {
        const [weak, strong] = x1 < x2 ? [x1, x2] : [x2, x1];
        const salt = saltToStrengthenKg({ brine: { massKg, saltFraction: weak }, saltFraction: strong });
        expect((massKg * weak + salt) / (massKg + salt)).toBeCloseTo(strong, 9);
        const water = waterToDiluteKg({ brine: { massKg, saltFraction: strong }, saltFraction: weak });
        expect((massKg * strong) / (massKg + water)).toBeCloseTo(weak, 9);
      }),
      settings,
    );
    expect(() => saltToStrengthenKg({ brine: { massKg: 1, saltFraction: 0.2 }, saltFraction: 0.1 })).toThrow(
      /Add water/,
    );
    expect(() => waterToDiluteKg({ brine: { massKg: 1, saltFraction: 0.1 }, saltFraction: 0.2 })).toThrow(/Add salt/);
  });

  it('ask for more salt after a batch than the cheese took, because it gave whey as well', () => {
    const after = brineAfterBatch({
      brine: { massKg: 11.319, saltFraction: 0.18 },
      saltTakenKg: 0.0102,
      waterGivenKg: 0.0153,
    });
    expect(100 * after.saltFraction).toBeCloseTo(17.9, 2);
    expect(1000 * after.saltToRestoreKg).toBeCloseTo(13.6, 1);
    expect(saltToStrengthenKg({ brine: after, saltFraction: 0.18 })).toBeCloseTo(after.saltToRestoreKg, 9);
  });

  it('hold some 3 mL of vinegar a litre in middling water, 8 mL in hard', () => {
    const perLitre = (alkalinityMeqPerL: number): number =>
      newBrineDressing({ volumeL: 1, targetPH: 5.2, alkalinityMeqPerL }).vinegarML;
    expect(perLitre(2)).toBeCloseTo(3.1, 1);
    expect(perLitre(5)).toBeCloseTo(7.7, 1);
    expect(
      newBrineDressing({ volumeL: 1, targetPH: 5.2, alkalinityMeqPerL: 2, calciumGPerL: 2 }).calciumSolutionML,
    ).toBeCloseTo(4.6, 1);
    expect(() => newBrineDressing({ volumeL: 1, targetPH: 7, alkalinityMeqPerL: 2 })).toThrow(InputError);
  });
});
