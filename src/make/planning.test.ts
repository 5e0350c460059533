import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { readAnswers } from './answers.ts';
import { fillSetup } from './fill.ts';
import { parseMake } from './make.ts';
import type { Amount, Plan } from './plan.ts';
import { plannedRestMin, planMake } from './planning.ts';
import type { Answers } from './setup.ts';
import { packetShare } from './shares.ts';

const SEED = { seed: 20261125 };
const read = (id: string): ReturnType<typeof parseMake> =>
  parseMake(JSON.parse(readFileSync(new URL(`../../makes/${id}.json`, import.meta.url), 'utf8')));
const ball = read('stretched-ball');
const string = read('stretched-string');
const plan = (answers: Answers): Plan => planMake({ make: ball, answers });
const amountOf = (from: Plan, id: string): Amount => from.amounts.find((amount) => amount.id === id)!;

function problemsOf(answers: unknown): InputError['problems'] {
  try {
    const read = readAnswers(answers);
    if ('problems' in read) return read.problems;
    planMake({ make: ball, answers: read.answers });
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
  return [];
}
const fieldsOf = (answers: unknown): string[] => problemsOf(answers).map((problem) => problem.field);

describe('a plan from four answers', () => {
  const four = plan({
    milk: { volumeL: 10, treatment: 'pasteurised' },
    culture: { packetTreatsL: 10 },
    pot: { volumeL: 12 },
  });

  it('has every amount of the make, and every amount belongs to a step of the plan', () => {
    expect(four.amounts.map((amount) => amount.id)).toEqual([
      'milk',
      'culture',
      'calcium',
      'rennet',
      'rennet-water',
      'whey-drawn',
      'wash-water',
      'stretch-water',
      'ice',
      'brine',
      'salt',
    ]);
    const ids = new Set(four.steps.map((step) => step.id));
    for (const amount of four.amounts) expect(ids.has(amount.stepId)).toBe(true);
  });

  it('says what it assumed, and does not assume what was said', () => {
    const assumed = four.assumed.map((gap) => gap.field);
    expect(assumed).toContain('rennet.strengthImcuPerMl');
    expect(assumed).not.toContain('culture.packetTreatsL');
    expect(assumed).not.toContain('milk.treatment');
    expect(assumed).not.toContain('pot.volumeL');
  });

  it('gives rennet of unknown strength as a range around 200 IMCU/mL', () => {
    const rennet = amountOf(four, 'rennet');
    expect(rennet.value).toBeCloseTo((45 * 10) / 200 / Math.exp(-0.03), 6);
    expect(rennet.high! / rennet.low!).toBeCloseTo(2.8, 6);
    expect(rennet.kitchen?.words).toContain('drops');
    expect(amountOf(four, 'rennet-water').value).toBeCloseTo(20 * rennet.value, 6);
    expect(four.setup.rennet.strengthImcuPerMl).toBeUndefined();
  });

  it('draws three tenths of the vat and says how deep that stands in the pot', () => {
    const whey = amountOf(four, 'whey-drawn');
    expect(whey.value).toBeCloseTo(3, 9);
    const radiusDm = four.setup.pot.insideMm / 200;
    expect(whey.also?.find((other) => other.unit === 'cm')?.value).toBeCloseTo(30 / (Math.PI * radiusDm ** 2), 6);
  });

  it('rests for acid two hours by its own expectation', () => {
    expect(plannedRestMin(four)).toBe(120);
    expect(plannedRestMin(planMake({ make: string, answers: { milk: { volumeL: 10 } } }))).toBe(120);
  });
});

describe('scaling', () => {
  const volume = fc.double({ min: 1, max: 500, noNaN: true });

  it('is linear in the milk for everything that goes into it', () => {
    fc.assert(
      fc.property(volume, fc.double({ min: 0.5, max: 2, noNaN: true }), (volumeL, times) => {
        fc.pre(volumeL * times >= 1.1 && volumeL * times <= 500);
        const lots: Omit<Answers, 'milk'> = { culture: { packetTreatsL: 10 }, pot: { volumeL: 900 } };
        const one = plan({ ...lots, milk: { volumeL } });
        const more = plan({ ...lots, milk: { volumeL: volumeL * times } });
        for (const amount of one.amounts) {
          if (amount.id === 'rennet-water') continue; // never less than can be spread over the pot
          expect(amountOf(more, amount.id).value / amount.value).toBeCloseTo(times, 9);
        }
      }),
      { ...SEED, numRuns: 100 },
    );
  });

  it('twice the milk takes twice the culture and twice the rennet', () => {
    const one = plan({ milk: { volumeL: 5 }, culture: { packetTreatsL: 10 } });
    const two = plan({ milk: { volumeL: 10 }, culture: { packetTreatsL: 10 } });
    expect(amountOf(one, 'culture').kitchen?.words).toBe('half the packet');
    expect(amountOf(two, 'culture').kitchen?.words).toBe('the whole packet');
    expect(amountOf(two, 'rennet').value).toBeCloseTo(2 * amountOf(one, 'rennet').value, 9);
  });

  it('rennet twice as strong is needed half as much, and old rennet more', () => {
    const rennet = (strengthImcuPerMl: number, monthsStored: number): number =>
      amountOf(plan({ milk: { volumeL: 10 }, rennet: { strengthImcuPerMl, monthsStored } }), 'rennet').value;
    expect(rennet(400, 0)).toBeCloseTo(rennet(200, 0) / 2, 9);
    expect(rennet(200, 12)).toBeGreaterThan(rennet(200, 0));
  });
});

describe('kitchen words', () => {
  it('give the share of the packet, then grams, then a spoon with its error', () => {
    const culture = amountOf(
      plan({ milk: { volumeL: 5 }, culture: { packetTreatsL: 10, packetMassG: 1.2 } }),
      'culture',
    );
    expect(culture.kitchen?.words).toBe('half the packet');
    expect(culture.also).toEqual([{ unit: 'g', value: 0.6 }]);
    expect(culture.spoon?.words).toMatch(/tsp/);
    expect(culture.spoon?.errorPercent).toBeGreaterThan(culture.kitchen?.errorPercent ?? Infinity);
  });

  it('count drops only where a hand can, and say so where one drop is much', () => {
    const words = (volumeL: number): string | undefined =>
      amountOf(plan({ milk: { volumeL }, rennet: { strengthImcuPerMl: 200, dropsPerMl: 20 } }), 'rennet').kitchen
        ?.words;
    expect(words(10)).toBe('46 drops of this bottle');
    expect(words(3)).toContain('syringe');
    expect(words(100)).toBeUndefined();
  });

  it('thin rennet of which a make takes so little that nobody could measure it', () => {
    const rennet = (strengthImcuPerMl: number, volumeL: number) => amountOf(plan({ milk: { volumeL }, rennet: { strengthImcuPerMl } }), 'rennet'); // prettier-ignore
    expect(rennet(200, 2).kitchen?.words).toBe('stir 1 mL of it into 19 mL of cool water and take 9.3 mL of that, at once'); // prettier-ignore
    expect(rennet(750, 1).kitchen?.words).toBe('stir 1 mL of it into 99 mL of cool water and take 6.2 mL of that, at once'); // prettier-ignore
    for (const litres of [0.5, 1, 2, 4, 10]) for (const strength of [100, 200, 750]) {
      const { value, kitchen } = rennet(strength, litres);
      const [, water, take] = /into (\d+) mL .* take ([\d.]+) mL/.exec(kitchen?.words ?? '') ?? [];
      expect(water === undefined, `${value} mL`).toBe(value >= 0.5);
      // As much rennet as the make wants, to the roundness of the figure.
      if (water !== undefined) expect(Math.abs(Number(take) / (1 + Number(water)) / value - 1)).toBeLessThan(0.02);
    }
  }); // prettier-ignore

  it('dissolve a tablet rather than break it', () => {
    const rennet = amountOf(plan({ milk: { volumeL: 10 }, rennet: { form: 'tablet' } }), 'rennet');
    expect(rennet.kitchen?.words).toMatch(/^dissolve one tablet in 60 mL .* take 21 mL/);
  });
});

describe('unknown lots', () => {
  it('never stop a plan', () => {
    const maybe = <T>(of: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(of, { nil: undefined });
    const answers = fc.record({
      volumeL: fc.double({ min: 1, max: 500, noNaN: true }),
      species: maybe(fc.constantFrom('cow', 'goat', 'sheep', 'buffalo')),
      treatment: maybe(fc.constantFrom('raw', 'pasteurised', 'high-heat')),
      form: maybe(fc.constantFrom('freeze-dried', 'frozen', 'bulk', 'whey')),
      rennet: maybe(fc.constantFrom('liquid', 'powder', 'tablet')),
    });
    fc.assert(
      fc.property(answers, fc.constantFrom(ball, string), ({ volumeL, species, treatment, form, rennet }, make) => {
        const planned = planMake({
          make,
          answers: {
            milk: {
              volumeL,
              ...(species === undefined ? {} : { species }),
              ...(treatment === undefined ? {} : { treatment }),
            },
            culture: form === undefined ? {} : { form },
            rennet: rennet === undefined ? {} : { form: rennet },
          },
        });
        for (const amount of planned.amounts) expect(amount.value).toBeGreaterThan(0);
        expect(planned.setup.pot.volumeL).toBeGreaterThanOrEqual(1.15 * volumeL);
      }),
      { ...SEED, numRuns: 200 },
    );
  });

  it('leave out the calcium where the milk is raw or the maker has none', () => {
    for (const answers of [
      { milk: { volumeL: 10, treatment: 'raw' as const } },
      { milk: { volumeL: 10 }, calcium: { has: false } },
    ]) {
      const planned = plan(answers);
      expect(planned.steps.some((step) => step.set.ingredient === 'calcium')).toBe(false);
      expect(planned.amounts.some((amount) => amount.id === 'calcium')).toBe(false);
    }
  });
});

describe('answers that cannot be', () => {
  it('are refused all at once, each with its field and what would do', () => {
    const problems = problemsOf({
      milk: { volumeL: 0, fatPercent: 80, temperatureC: 98, pH: 64.2 },
      culture: { packetTreatsL: 0 },
      rennet: { strengthImcuPerMl: 15000 },
      room: { temperatureC: 68 },
    });
    const remedy = Object.fromEntries(problems.map((problem) => [problem.field, problem.remedy]));
    expect(Object.keys(remedy)).toHaveLength(7);
    expect(remedy['milk.temperatureC']).toBe('If you meant 98 °F, that is 36.7 °C.');
    expect(remedy['room.temperatureC']).toBe('If you meant 68 °F, that is 20 °C.');
    expect(remedy['milk.pH']).toBe('Did you mean 6.42?');
    expect(remedy['milk.fatPercent']).toMatch(/^Cow's milk has 3 to 6 % of fat/);
    expect(remedy['rennet.strengthImcuPerMl']).toContain('200 IMCU/mL');
  });

  it('are refused by the planner as well as by whoever read them', () => {
    expect(() => plan({ milk: { volumeL: -3 } })).toThrow(InputError);
  });

  it.each([0, -3, Number.NaN, Infinity])('%d litres is no milk', (volumeL) => {
    expect(fieldsOf({ milk: { volumeL } })).toEqual(['milk.volumeL']);
  });

  it('more milk than the pot holds is a contradiction', () => {
    expect(fieldsOf({ milk: { volumeL: 12 }, pot: { volumeL: 10 } })).toEqual(['pot.volumeL']);
  });

  it('bought milk at 37 °C is asked about once, and kept when confirmed', () => {
    const warm = { milk: { volumeL: 10, temperatureC: 37 } };
    expect(problemsOf(warm)[0]?.remedy).toContain('37 °F, that is 2.8 °C');
    expect(fieldsOf({ ...warm, confirmed: ['milk.temperatureC'] })).toEqual([]);
    expect(fieldsOf({ milk: { volumeL: 10, temperatureC: 37, treatment: 'raw' } })).toEqual([]);
  });

  it('a field nobody knows is named, so that a slip of spelling is found', () => {
    expect(fieldsOf({ milk: { volumeL: 10, fat: 3.6 } })).toEqual(['milk.fat']);
  });

  it('nothing at all is refused in words, without a stack of code', () => {
    expect(problemsOf(undefined)[0]?.field).toBe('answers');
    expect(fieldsOf({ milk: {} })).toEqual(['milk.volumeL']);
  });
});

describe('milk that is not the make’s own', () => {
  it('ultra-heated milk is refused for rennet, with what to make instead', () => {
    const [problem] = problemsOf({ milk: { volumeL: 10, treatment: 'uht' } });
    expect(problem?.field).toBe('milk.treatment');
    expect(problem?.remedy).toContain('acid and heat');
  });

  it('raw, homogenised, lean and other milks are remarked on, never refused', () => {
    const codes = (answers: Answers): string[] => (plan(answers).remarks ?? []).map((remark) => remark.code);
    expect(codes({ milk: { volumeL: 10, treatment: 'raw' } })).toEqual(['milk-raw']);
    expect(codes({ milk: { volumeL: 10, homogenised: true, fatPercent: 1.5 } })).toEqual([
      'milk-homogenised',
      'milk-low-fat',
    ]);
    expect(codes({ milk: { volumeL: 10, species: 'goat' } })).toEqual(['milk-goat']);
    expect(codes({ milk: { volumeL: 10 } })).toEqual([]);
  });

  it('a spoon for the culture brings the advice to quarter a weighed packet', () => {
    const spoon = plan({ milk: { volumeL: 10 }, culture: { measuredBy: 'spoon' } });
    expect(spoon.remarks?.map((remark) => remark.code)).toEqual(['weigh-the-packet']);
  });
});

describe('a share of a packet', () => {
  it.each([
    [0.5, 'half the packet', 15],
    [1, 'the whole packet', 0],
    [0.25, 'a quarter of the packet', 15],
    [1.25, '1 packet and a quarter of a packet', 3],
    [1.5, '1 packet and half a packet', 5],
    [2, '2 packets', 0],
    [0.3, 'a little under a third of the packet', 15],
    [0.998, 'the whole packet', 0],
  ])('%d is %s', (packets, words, errorPercent) => {
    expect(packetShare(packets)).toEqual({ words, errorPercent });
  });
});

describe('the defaults', () => {
  it('put the gap first that widens the forecast most: what the packet treats', () => {
    expect(fillSetup({ make: ball, answers: { milk: { volumeL: 10 } } }).assumed[0]?.field).toBe(
      'culture.packetTreatsL',
    );
  });
});
