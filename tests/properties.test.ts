/** What holds for every input, asked of the calculators: balances, directions, limits, inverses. Chance is seeded. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convert, sameDimension, unitNames } from '../src/numbers/units.ts';
import { curdAndWhey, curdBasis, type Parts } from '../src/science/syneresis-balance.ts';
import { CHEESE_FAMILIES, vatRecovery } from '../src/science/yield-families.ts';
import { MILK_SPECIES, milkComposition } from '../src/science/milk.ts';
import { mixed } from '../src/science/standardise.ts';
import { ask, askFor } from './ask.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const RUNS = { seed: 20261125, numRuns: 60 };
/** A point every quarter minute, the first after one. */
const CURVE_AT_TWO_MINUTES = 7;
const FEW = { seed: 20261125, numRuns: 15 };

/** Asserts that the numbers rise (or fall), each by more than nothing. */
function expectRising(values: readonly number[]): void {
  values.slice(1).forEach((value, i) => expect(value).toBeGreaterThan(values[i] ?? Number.NaN));
}

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

describe('nature goes one way', () => {
  const clot = (changes: object): number =>
    askFor('flocculationMinutes.p50', {
      name: 'clot',
      input: { doseIMCUPerL: 45, temperatureC: 32, pH: 6.5, ...changes },
    });

  it('more rennet, more acid, more calcium and more warmth up to the best clot sooner', () => {
    fc.assert(
      fc.property(between(10, 150), between(5.9, 6.7), between(24, 38), (doseIMCUPerL, pH, temperatureC) => {
        const at = { doseIMCUPerL, pH, temperatureC };
        expect(clot({ ...at, doseIMCUPerL: 1.1 * doseIMCUPerL })).toBeLessThan(clot(at));
        expect(clot({ ...at, pH: pH - 0.1 })).toBeLessThan(clot(at));
        expect(clot({ ...at, temperatureC: temperatureC + 1 })).toBeLessThan(clot(at));
        expect(clot({ ...at, addedCalciumMM: 1 })).toBeLessThan(clot(at));
      }),
      RUNS,
    );
  });

  it('bigger pieces take longer to cool, and to warm', () => {
    fc.assert(
      fc.property(between(10, 150), between(1, 12), between(15, 40), (mm, bathC, targetCoreC) => {
        const minutes = (diameter: number): number =>
          ask('cool', { shape: 'sphere', mm: [diameter], fromC: 58, bathC, targetCoreC })['minutes'] ?? 0;
        expectRising([minutes(mm), minutes(1.1 * mm), minutes(1.5 * mm)]);
      }),
      RUNS,
    );
    const core = (pieceMm: number): number =>
      askFor(`curve.${CURVE_AT_TWO_MINUTES}.coreC`, {
        name: 'stretch-water',
        input: { curdKg: 1, curdC: 34, targetC: 58, waterC: 80, pieceMm, bowlWPerK: 0 },
      });
    expectRising([core(60), core(40), core(25), core(15)]);
  });

  it('stronger brine, warmer brine and longer hours salt more; a bigger ball less', () => {
    fc.assert(
      fc.property(
        between(8, 20),
        between(5, 20),
        between(0.3, 20),
        between(30, 80),
        (brinePercent, temperatureC, hours, mm) => {
          const salt = (changes: object): number =>
          ask('brine-time', {
            shape: 'sphere', mm: [mm], moisturePercent: 57, brinePercent, temperatureC, hours, ...changes,
          })['saltPercent'] ?? 0; // prettier-ignore
          const here = salt({});
          expect(salt({ brinePercent: 1.1 * brinePercent })).toBeGreaterThan(here);
          expect(salt({ temperatureC: temperatureC + 1 })).toBeGreaterThan(here);
          expect(salt({ hours: 1.1 * hours })).toBeGreaterThan(here);
          expect(salt({ mm: [1.1 * mm] })).toBeLessThan(here);
        },
      ),
      RUNS,
    );
  });

  it('a stronger burner is quicker, more milk and a colder room are slower', () => {
    fc.assert(
      fc.property(between(2, 50), between(600, 5000), between(40, 80), (volumeL, heaterW, toC) => {
        const minutes = (changes: object): number =>
          ask('heat', { volumeL, fromC: 6, toC, heaterW: heaterW + 60 * volumeL, roomC: 20, ...changes })['minutes'] ??
          0;
        const here = minutes({});
        expect(minutes({ heaterW: 1.1 * (heaterW + 60 * volumeL) })).toBeLessThan(here);
        expect(minutes({ lid: true })).toBeLessThan(here);
        expect(minutes({ volumeL: 1.1 * volumeL })).toBeGreaterThan(here);
      }),
      RUNS,
    );
  });

  it('more fat, more casein and more moisture give more cheese', () => {
    fc.assert(
      fc.property(between(3, 6), between(2, 3.5), between(34, 50), fc.constantFrom(...CHEESE_FAMILIES), (fatPercent, caseinPercent, moisturePercent, family) => {
        const kg = (changes: object): number =>
          ask('yield', { fatPercent, caseinPercent, moisturePercent, family, ...changes })['kgPer100kg'] ?? 0;
        expect(kg({ fatPercent: fatPercent + 0.2 })).toBeGreaterThan(kg({}));
        expect(kg({ caseinPercent: caseinPercent + 0.1 })).toBeGreaterThan(kg({}));
        expect(kg({ moisturePercent: moisturePercent + 1 })).toBeGreaterThan(kg({}));
      }),
      RUNS,
    ); // prettier-ignore
  });

  it('hotter water burns sooner, and milk held hotter counts for more', () => {
    const burn = (waterC: number): number => ask('scald', { waterC })['secondsToBlister'] ?? Number.NaN;
    for (let waterC = 46; waterC < 60; waterC++) expect(burn(waterC + 1)).toBeLessThan(burn(waterC));
    const lethal = (temperatureC: number): number =>
      ask('pasteurise', {
        readings: [0, 5, 10, 15].map((minute) => ({ minute, temperatureC })),
        thermometerErrorC: 0,
      })['lethalityMinutesAt63C'] ?? 0;
    expectRising([lethal(58), lethal(60), lethal(63), lethal(66)]);
  });

  it('more culture brings a pH sooner', () => {
    const minutesTo = (packetFraction: number): number =>
      askFor('minutesToPH.6.p50', {
        name: 'ripen',
        input: {
          culture: { kind: 'thermophilic', packetFraction },
          temperatureProfile: [{ minute: 0, temperatureC: 40 }],
          minutes: 900,
          targets: [6],
          members: 60,
        },
      });
    expectRising([minutesTo(4), minutesTo(2), minutesTo(1), minutesTo(0.5)]);
  });
});

describe('at the limits', () => {
  it('no dose does nothing', () => {
    const milk = { species: 'cow', pH: 6.6 };
    expect(ask('acid', { milk, acid: 'citric', gPerL: 0 })['pH']).toBeCloseTo(6.6, 9);
    expect(ask('acid', { milk, acid: 'lactic', targetPH: 6.6 })['gPerL']).toBeCloseTo(0, 9);
    expect(ask('calcium', { milkL: 10, solutionPercent: 33, gPerL: 0 })).toMatchObject({ mL: 0, addedMM: 0 });
    expect(ask('dry-salt', { curdKg: 2, curdMoisturePercent: 45, targetSaltPercent: 0 })['saltG']).toBeCloseTo(0, 9);
    const still = { vatL: 10, vatC: 37, drawL: 0, waterC: 60, addL: 0, minutes: 0 };
    expect(ask('wash', still)).toMatchObject({ finalC: 37, lactoseLeftFraction: 1 });
  });

  it('no time changes nothing', () => {
    expect(ask('hold', { volumeL: 10, atC: 37, minutes: 0, roomC: 20, how: 'open' })['endC']).toBe(37);
    const ball = { shape: 'sphere', mm: [61], fromC: 58, bathC: 1, minutes: 0 };
    expect(ask('cool', ball)).toMatchObject({ coreC: 58, meanC: 58 });
  });

  it('in an endless bath everything comes to the bath', () => {
    const long = ask('cool', { shape: 'brick', mm: [100, 80, 50], fromC: 58, bathC: 2, minutes: 50_000 });
    for (const place of ['coreC', 'meanC', 'surfaceC']) expect(long[place]).toBeCloseTo(2, 6);
    const brine = { shape: 'sphere', mm: [30], moisturePercent: 57, brinePercent: 12, temperatureC: 15, hours: 5000 };
    expect(ask('brine-time', brine)['saltInMoisturePercent']).toBeCloseTo((100 * 12) / 88, 2);
    const open = ask('hold', { volumeL: 1, atC: 60, minutes: 2880, roomC: 20, how: 'open' });
    expect(open['endC']).toBeCloseTo(20, 0);
  });

  it('a small bath comes to meet the cheese, a large one does not', () => {
    const after = (brineKg: number): number =>
      ask('brine-time', {
        shape: 'sphere', mm: [61], moisturePercent: 57, brinePercent: 18, temperatureC: 10, hours: 24, brineKg,
      })['brinePercentAfter'] ?? 0; // prettier-ignore
    expectRising([after(0.2), after(1), after(10), after(1000)]);
    expect(after(100_000)).toBeCloseTo(18, 3);
  });
});

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
