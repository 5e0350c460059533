/** What holds for every input: a value turned into another and back is the same value. Chance is seeded. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convert, sameDimension, unitNames } from '../../src/numbers/units.ts';
import { MILK_SPECIES } from '../../src/science/milk.ts';
import { ask, askFor } from '../ask.ts';
import { between, FEW, RUNS } from './runs.ts';

describe('there and back again', () => {
  it('every unit into every other of its kind and back, to 1e-9', () => {
    for (const from of unitNames) {
      for (const to of unitNames.filter((each) => sameDimension({ from, to: each }))) {
        for (const value of [1e-6, 0.37, 42, 98.6, 12_345]) {
          const back = convert({ value: convert({ value, from, to }), from: to, to: from });
          expect(Math.abs(back - value), `${value} ${from} by ${to}`).toBeLessThan(1e-9 * Math.max(value, 300));
          const through = ask('measure', { value, from, to })['value'] ?? Number.NaN;
          const home = ask('measure', { value: through, from: to, to: from })['value'] ?? Number.NaN;
          expect(Math.abs(home - value), `${value} ${from} by ${to}`).toBeLessThan(1e-9 * Math.max(value, 300));
        }
      }
    }
  });

  it('a brine said in one unit is the same brine in every other, to 1e-9 of its salt', () => {
    const names = {
      'percent-by-mass': 'percentByMass',
      'g-per-L-water': 'gPerLWater',
      'g-per-L-brine': 'gPerLBrine',
      'saturation-percent': 'saturationPercent',
    };
    fc.assert(
      fc.property(between(0.5, 25), between(2, 38), (percent, temperatureC) => {
        const said = { strength: percent, strengthUnit: 'percent-by-mass', brineL: 5, temperatureC };
        const first = ask('brine', said);
        for (const [strengthUnit, field] of Object.entries(names)) {
          const again = ask('brine', { ...said, strength: first[field], strengthUnit });
          expect(Math.abs((again['percentByMass'] ?? 0) - percent), strengthUnit).toBeLessThan(1e-9 * 25);
        }
      }),
      RUNS,
    );
  });

  it('a titration in one scale is the same in every other', () => {
    fc.assert(
      fc.property(between(0.1, 15), (gLacticPerL) => {
        const all = ask('acidity-units', { gLacticPerL });
        for (const [scale, value] of Object.entries(all)) {
          expect(ask('acidity-units', { [scale]: value })['gLacticPerL']).toBeCloseTo(gLacticPerL, 9);
        }
      }),
      RUNS,
    );
  });

  it('the water that a wash asks for brings it to the target', () => {
    fc.assert(
      fc.property(
        between(4, 100),
        between(0.1, 0.5),
        between(55, 90),
        between(39, 44),
        (vatL, share, waterC, targetC) => {
          const wash = { vatL, vatC: 37, drawL: share * vatL, waterC };
          const { addL } = ask('wash', { ...wash, targetC });
          expect(ask('wash', { ...wash, addL })['finalC']).toBeCloseTo(targetC, 4);
        },
      ),
      RUNS,
    );
  });

  it('the minutes and hours asked for a core and a salt give that core and that salt', () => {
    fc.assert(
      fc.property(between(25, 150), between(0, 10), between(15, 50), (mm, bathC, targetCoreC) => {
        const ball = { shape: 'sphere', mm: [mm], fromC: 58, bathC };
        const { minutes } = ask('cool', { ...ball, targetCoreC });
        expect(ask('cool', { ...ball, minutes })['coreC']).toBeCloseTo(targetCoreC, 4);
      }),
      RUNS,
    );
    fc.assert(
      fc.property(between(30, 100), between(14, 24), between(0.4, 2.5), (mm, brinePercent, targetSaltPercent) => {
        const ball = { shape: 'sphere', mm: [mm], moisturePercent: 57, brinePercent, temperatureC: 10 };
        const { hours } = ask('brine-time', { ...ball, targetSaltPercent });
        expect(ask('brine-time', { ...ball, hours })['saltPercent']).toBeCloseTo(targetSaltPercent, 6);
      }),
      RUNS,
    );
  });

  it('the acid asked for a pH gives that pH', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...MILK_SPECIES),
        fc.constantFrom('lactic', 'citric', 'citric-monohydrate', 'acetic', 'vinegar'),
        between(5, 6.2),
        (species, acid, targetPH) => {
          const sour = { milk: { species, pH: 6.6 }, acid };
          for (const speed of ['quick', 'slow']) {
            const gPerL = askFor(`span.gPerL.${speed}`, { name: 'acid', input: { ...sour, targetPH } });
            const there = askFor(`span.pH.${speed}`, { name: 'acid', input: { ...sour, gPerL } });
            expect(there).toBeCloseTo(targetPH, 6);
          }
        },
      ),
      RUNS,
    );
  });

  it('a cup test of a known rennet finds its strength', () => {
    fc.assert(
      fc.property(
        between(150, 600),
        between(0.03, 0.2),
        between(28, 40),
        between(6.3, 6.7),
        (strength, rennetML, temperatureC, pH) => {
          const cup = { temperatureC, pH };
          const doseIMCUPerL = (strength * rennetML) / 0.5;
          const flocculationMinutes = askFor('flocculationMinutes.p50', {
            name: 'clot',
            input: { ...cup, doseIMCUPerL, heatTreatment: 'pasteurised' },
          });
          const found = askFor('strengthIMCUPerML.p50', {
            name: 'rennet-test',
            input: { ...cup, milkML: 500, rennetML, flocculationMinutes },
          });
          expect(found / strength).toBeCloseTo(1, 9);
        },
      ),
      RUNS,
    );
  });

  it('readings of a known pot give back its burner and its loss', () => {
    fc.assert(
      fc.property(between(5, 30), between(500, 2500), between(0.8, 1.2), (volumeL, heaterW, factor) => {
        const guess = ask('vat-fit', {
          readings: [
            { minute: 0, temperatureC: 30, heaterOn: false },
            { minute: 30, temperatureC: 29.5, heaterOn: false },
          ],
          volumeL, roomC: 20,
        }); // prettier-ignore
        const lossWPerK = factor * (guess['lossWPerK'] ?? 0);
        const on = ask('heat', {
          volumeL,
          fromC: 30,
          toC: 36,
          heaterW,
          lossWPerK,
          coastSeconds: 0,
        });
        const off = (minutes: number): number =>
          ask('hold', { volumeL, atC: 36, minutes, roomC: 20, how: 'open', lossWPerK })['endC'] ?? 0;
        const start = on['minutes'] ?? Number.NaN;
        const found = ask('vat-fit', {
          readings: [
            { minute: 0, temperatureC: 30, heaterOn: true },
            { minute: start, temperatureC: 36, heaterOn: false },
            { minute: start + 60, temperatureC: off(60), heaterOn: false },
            { minute: start + 120, temperatureC: off(120), heaterOn: false },
          ],
          volumeL, roomC: 20, thermometerErrorC: 0.01,
        }); // prettier-ignore
        expect((found['heaterW'] ?? 0) / heaterW).toBeCloseTo(1, 2);
        expect((found['lossWPerK'] ?? 0) / lossWPerK).toBeCloseTo(1, 1);
      }),
      FEW,
    );
  });
});
