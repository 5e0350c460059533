/** What the simulator makes of each family's own work: acid, heat, boiling, the press, salt, a room to age in. */
import { describe, expect, it } from 'vitest';
import { TRACE_EVERY_MIN, TRACE_POINTS } from '../src/forecast/run.ts';
import type { Make } from '../src/make/make.ts';
import { makeOf, ran } from './ran.ts';

const withAcid = (make: Make, factor: number): Make => {
  const { acid } = make.doses;
  if (acid === undefined) throw new Error('no acid in this make');
  const { gPerL } = acid;
  return { ...make, doses: { ...make.doses, acid: { ...acid, gPerL: { ...gPerL, aim: factor * gPerL.aim } } } };
};

describe('acid poured in', () => {
  const quick = makeOf('quick-stretched');

  it('takes cold milk to the pH of quick curd, without a culture, and more of it takes it further', () => {
    const usual = ran(quick).at('drain', 'endPH');
    expect(usual).toBeGreaterThan(5.4);
    expect(usual).toBeLessThan(5.8);
    expect(ran(withAcid(quick, 1.2)).at('drain', 'endPH')).toBeLessThan(usual - 0.1);
    expect(quick.doses.culture).toBeUndefined();
  });

  it('brings whey protein down with the casein where the milk is hot, so that more curd comes of it than of rennet', () => {
    const make = makeOf('heat-acid-pressed');
    const caught = ran(make).figure('cheeseKg');
    const none = ran({ ...make, model: { ...make.model, wheyProteinRecovery: { mean: 0, spread: 0, source: 'common practice' } } }); // prettier-ignore
    expect(caught).toBeGreaterThan(1.06 * none.figure('cheeseKg'));
  });
});

describe('whey in the pot', () => {
  it('gives a twentieth or so of its weight as curd when it is heated with acid', () => {
    const { figure } = ran(makeOf('whey-curd'));
    expect(figure('cheesePerMilkKgPerL')).toBeGreaterThan(0.03);
    expect(figure('cheesePerMilkKgPerL')).toBeLessThan(0.11);
  });

  it('boils down over its burner for hours, and nothing of it is drained', () => {
    const make = makeOf('brown-whey');
    const usual = ran(make);
    expect(usual.at('boilDown', 'endMin')).toBeGreaterThan(240);
    expect(usual.figure('moisturePercent')).toBeLessThan(30);
    expect(usual.figure('wheyL')).toBeNaN();
  });
});

describe('milk that sets by its acid', () => {
  it('is all yoghurt: nothing is drained', () => {
    const { figure } = ran(makeOf('yoghurt'));
    expect(figure('cheesePerMilkKgPerL')).toBeGreaterThan(0.98);
    expect(figure('wheyL')).toBeNaN();
  });

  it('drains in its cloth for hours, and tells how much whey ran', () => {
    const lactic = ran(makeOf('lactic-soft'));
    expect(lactic.figure('wheyL')).toBeGreaterThan(5);
    expect(lactic.at('scoop', 'startMin')).toBeGreaterThan(600);
    expect(lactic.at('scoop', 'endPH')).toBeLessThan(4.8);
  });
});

describe('curd in salt, form and press', () => {
  const cheddar = makeOf('cheddared');

  it('sours on through the night, and less where it was salted', () => {
    const salted = ran(cheddar);
    const unsalted = ran(cheddar, { verb: 'drySalt', set: { saltPercent: 0 } });
    expect(salted.at('press', 'endPH')).toBeLessThan(salted.at('mill', 'endPH'));
    expect(unsalted.at('press', 'endPH')).toBeLessThan(salted.at('press', 'endPH') - 0.05);
  });

  it('loses whey under the press that it would have kept', () => {
    const loose = { ...cheddar, model: { ...cheddar.model, pressLossFraction: { mean: 0, spread: 0, source: 'common practice' as const } } }; // prettier-ignore
    expect(ran(cheddar).figure('enteringMoisturePercent')).toBeLessThan(
      ran(loose).figure('enteringMoisturePercent') - 0.5,
    );
  });
});

describe('a room to age in', () => {
  const tomme = makeOf('tomme');

  it('takes more water the drier it is, and the cheese is judged by what it then holds', () => {
    const damp = ran(tomme, { verb: 'age', set: { humidityPercent: 95 } });
    const dry = ran(tomme, { verb: 'age', set: { humidityPercent: 80 } });
    expect(dry.figure('cheeseKg')).toBeLessThan(0.97 * damp.figure('cheeseKg'));
    expect(dry.figure('moisturePercent')).toBeLessThan(damp.figure('moisturePercent') - 1);
    expect(dry.figure('enteringMoisturePercent')).toBeCloseTo(damp.figure('enteringMoisturePercent'), 6);
  });

  it('is left weeks after the curve has ended, and the steps still say when', () => {
    const { at } = ran(tomme);
    expect(at('age', 'endMin')).toBeGreaterThan(30 * 1440);
    expect(at('age', 'endMin')).toBeGreaterThan(TRACE_EVERY_MIN * TRACE_POINTS);
  });
});
