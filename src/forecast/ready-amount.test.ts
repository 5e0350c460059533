import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { typicalPlan } from '../../scripts/makes/landing.ts';
import { planFor } from '../../tests/makes.ts';
import { parseMake, type Make } from '../make/make.ts';
import { neededOf, preparedAmount, readyAmount } from './ready-amount.ts';
import { simulate } from './simulate.ts';

const makeFrom = (id: string): Make => parseMake(JSON.parse(readFileSync(`makes/${id}.json`, 'utf8')));
const plan = planFor();
const forecast = simulate({ plan, members: 200, seed: 3 });
const amountOf = (id: string) => plan.amounts.find((amount) => amount.id === id)!;

describe('what is made ahead', () => {
  it.each(['wash-water', 'stretch-water', 'ice', 'brine', 'salt'])('%s is enough for 19 makes in 20, not for half of them', (id) => {
    const ready = readyAmount({ amount: amountOf(id), forecast });
    const used = neededOf({ amount: amountOf(id), forecast })!;
    expect(ready.used).toEqual(used);
    expect(ready.value).toBeGreaterThanOrEqual(used.p95 - 1e-9);
    expect(ready.value).toBeLessThan(used.p95 * 1.1);
    expect(ready.value).toBe(Number(ready.value.toPrecision(2)));
  }); // prettier-ignore

  it('is the upper end of the first estimate until there is a forecast', () => {
    const ice = amountOf('ice');
    const ready = readyAmount({ amount: ice, forecast: null });
    expect(ready.used).toBeNull();
    expect(ready.value).toBeGreaterThanOrEqual(ice.high!);
    expect(readyAmount({ amount: amountOf('wash-water'), forecast: null }).value).toBe(3.6);
  });

  it('holds the salt of its own brine', () => {
    const [brine, salt] = ['brine', 'salt'].map((id) => readyAmount({ amount: amountOf(id), forecast }).used!.p95);
    expect(salt! / brine!).toBeCloseTo(0.18, 6);
  });
});

describe('what is measured at its step', () => {
  it('stays as the plan has it: rennet, its water, culture, and the whey that is drawn', () => {
    for (const id of ['culture', 'rennet', 'rennet-water', 'calcium', 'whey-drawn']) {
      expect(readyAmount({ amount: amountOf(id), forecast }).value, id).toBe(amountOf(id).value);
    }
  });
});

describe('a preparation', () => {
  const prepared = plan.steps.flatMap((step) => step.prepare.map((preparation) => ({ step, preparation })));

  it('carries the same figure as the amount it is of', () => {
    const carried = prepared.flatMap(({ step, preparation }) => {
      const ready = preparedAmount({ plan, forecast, step, preparation });
      return ready === null ? [] : [ready];
    });
    expect(carried.map(({ id }) => id)).toEqual(
      expect.arrayContaining(['rennet-water', 'wash-water', 'stretch-water', 'ice', 'brine']),
    );
    for (const ready of carried) expect(ready).toEqual(readyAmount({ amount: amountOf(ready.id), forecast }));
  });

  it('of water for three washings carries all of it, and each washing its own part', () => {
    const grains = typicalPlan(makeFrom('cottage'));
    const foreseen = simulate({ plan: grains, members: 60, seed: 3 });
    const waters = grains.amounts.filter(({ id }) => id === 'wash-water');
    const parts = waters.map((amount) => readyAmount({ amount, forecast: foreseen }).value);
    // By the make: half, two fifths and two fifths of the milk.
    expect(parts).toEqual([5, 4, 4]);
    const asked = grains.steps.flatMap((step) => step.prepare.filter(({ amount }) => amount === 'wash-water').map((preparation) => preparedAmount({ plan: grains, forecast: foreseen, step, preparation })?.value)); // prettier-ignore
    expect(asked).toEqual([13]);
  });

  it('of acid carries what the make takes of it, whichever acid it is', () => {
    const quick = typicalPlan(makeFrom('quick-stretched'));
    const asked = quick.steps.flatMap((step) => step.prepare.filter(({ amount }) => amount === 'acid').map((preparation) => preparedAmount({ plan: quick, forecast: null, step, preparation }))); // prettier-ignore
    expect(asked).toEqual([{ id: 'acid-citric', unit: 'g', value: 16, used: null }]);
  });

  it('of nothing measured carries none', () => {
    const cloth = prepared.find(({ preparation }) => preparation.amount === 'none')!;
    expect(preparedAmount({ plan, forecast, ...cloth })).toBeNull();
  });
});
