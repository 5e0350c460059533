import { describe, expect, it } from 'vitest';
import { MAKE_IDS, makeNamed, planFor, TO_DRAINED_REST, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import { InputError } from '../numbers/validity.ts';
import { adjustablesOf, answersWith } from './adjustable.ts';
import { withChanges } from './changes.ts';
import { parseMake } from './make.ts';
import type { Plan } from './plan.ts';
import type { Answers } from './setup.ts';
import { changedUnderWay, stillOpen } from './under-way.ts';

const make = makeNamed('stretched-ball');
const changed = (changes: Record<string, number>): Plan => planFor({ answers: { changes } });
const step = (plan: Plan, id: string) => plan.steps.find((one) => one.id === id);

describe('what a maker may choose of a make', () => {
  it('moves every place that belongs together by the same difference', () => {
    const plan = changed({ 'ripen-warmth': 35, 'rest-warmth': 37 });
    expect(step(plan, 'ripen')?.set.atC).toBe(35);
    expect(step(plan, 'warm')?.set.toC).toBe(35);
    expect(step(plan, 'warm')?.until.of).toMatchObject([{ kind: 'temperature', atC: { value: 35 } }]);
    // Two degrees off both rests, which the make holds a degree apart.
    expect([step(plan, 'rest-drained')?.set.atC, step(plan, 'rest-in-whey')?.set.atC]).toEqual([37, 38]);
  });

  it('lets chosen minutes alone end the step', () => {
    const { of } = step(changed({ 'brine-minutes': 34 }), 'brine')?.until ?? { of: [] };
    expect(of).toMatchObject([{ kind: 'time', minutes: { value: 34 } }]);
  });

  it('gives more rennet to pour for a larger dose', () => {
    const rennetMl = (plan: Plan): number => plan.amounts.find((amount) => amount.id === 'rennet')?.value ?? Number.NaN;
    expect(rennetMl(changed({ 'rennet-dose': 54 })) / rennetMl(planFor())).toBeCloseTo(54 / 45, 6);
  });

  it.each(MAKE_IDS)('%s: choosing the same again changes nothing, and the result is a make that reads', (id) => {
    const plan = planFor({ id, answers: { instruments: { pHMeter: true } } });
    for (const { id: name, low, high, step: fine, path } of adjustablesOf(plan)) {
      if (path !== null) continue;
      const changes = { [name]: Number((low + Math.round((0.3 * (high - low)) / fine) * fine).toPrecision(12)) };
      const once = withChanges({ make: makeNamed(id), changes });
      expect(withChanges({ make: once, changes })).toEqual(once);
      expect(parseMake(structuredClone(once))).toEqual(once);
    }
  });

  it('offers an end by pH to those who have a meter, and to nobody who chose the minutes', () => {
    const ids = (answers: Answers): string[] => adjustablesOf(planFor({ answers })).map((one) => one.id);
    const meter = { pHMeter: true };
    expect(ids({ milk: { volumeL: 12 } })).not.toContain('drain-ph');
    expect(ids({ milk: { volumeL: 12 }, instruments: meter })).toContain('drain-ph');
    expect(ids({ milk: { volumeL: 12 }, instruments: meter, changes: { 'whey-rest': 60 } })).not.toContain('drain-ph');
  });

  it('refuses what the make does not have or what would be another cheese, all at once', () => {
    const refused = (): unknown => withChanges({ make, changes: { 'brine-minutes': 900, salt: 3 } });
    expect(refused).toThrow(InputError);
    expect(refused).toThrow(/changes.brine-minutes 900 min does not fit: expected 5 to 240 min[\s\S]*changes.salt 3/);
  });

  it('lists them in the order of the work, each inside its range, with the kitchen at the end', () => {
    const list = adjustablesOf(planFor());
    const order = planFor().steps.map((one) => one.id);
    const ofMake = list.filter((one) => one.id !== 'milk' && one.id !== 'piece');
    expect(ofMake.map((one) => order.indexOf(one.stepId))).toEqual(ofMake.map((one) => order.indexOf(one.stepId)).sort((a, b) => a - b)); // prettier-ignore
    expect(list.slice(-2).map((one) => one.id)).toEqual(['milk', 'piece']);
    for (const { low, high, now } of list) if (now !== null) expect(now >= low && now <= high).toBe(true);
    // The bath ends when the salt is in: no minutes stand in the make.
    expect(list.find((one) => one.id === 'brine-minutes')?.now).toBeNull();
  });

  it('puts a dose of culture and the milk where the maker would have answered', () => {
    const plan = planFor();
    const answers = answersWith({ answers: { milk: { volumeL: 12 }, culture: { packetTreatsL: 10 } }, adjustables: adjustablesOf(plan), settings: { 'culture-dose': 0.8, milk: 9, cube: 10, unheard: 1 } }); // prettier-ignore
    expect(answers).toEqual({ milk: { volumeL: 9 }, culture: { packetTreatsL: 10, packetFraction: 0.8 }, changes: { cube: 10 } }); // prettier-ignore
  });

  it('names every slip in a list of free inputs', () => {
    const [first] = make.free ?? [];
    const broken = {
      ...make,
      free: [first, { ...first, low: 60, high: 50, places: [{ kind: 'setting', step: 'settle', setting: 'cubeMm' }, { kind: 'minutes', step: 'nowhere' }] }], // prettier-ignore
    };
    expect(() => parseMake(broken)).toThrow(
      /free\[1\].id[\s\S]*low below high[\s\S]*a setting cubeMm[\s\S]*Name a step/,
    );
  });
});

describe('a make changed while it runs', () => {
  const inRest = underWay({ nowMin: 270, ended: TO_DRAINED_REST, running: 'rest-drained' });
  const ids = (history: typeof inRest): string[] => stillOpen({ plan: planFor(), adjustables: adjustablesOf(planFor()), history }).map((one) => one.id); // prettier-ignore

  it('keeps open only what is not yet decided', () => {
    expect(ids(inRest)).toEqual(['rest-warmth', 'brine-minutes', 'brine-strength', 'piece']);
    expect(ids(underWay({ nowMin: 100, ended: [], running: 'warm' }))).toContain('culture-dose');
  });

  it('cannot end a running step before now', () => {
    const history = underWay({ nowMin: 220, ended: TO_WHEY_REST, running: 'rest-in-whey' });
    const rest = stillOpen({ plan: planFor(), adjustables: adjustablesOf(planFor()), history }).find((one) => one.id === 'whey-rest'); // prettier-ignore
    expect(rest?.low).toBe(220 - 187 + 1);
  });

  it('leaves what is over as it was, and remembers what the running step was held at', () => {
    const plan = changedUnderWay({ before: planFor(), after: changed({ 'rest-warmth': 41 }), steps: inRest.steps, atMin: 270 }); // prettier-ignore
    expect(step(plan, 'rest-in-whey')).toEqual(step(planFor(), 'rest-in-whey'));
    expect(step(plan, 'rest-drained')).toMatchObject({ set: { atC: 41 }, heldUntil: [{ atC: 39, untilMin: 270 }] });
    const again = changedUnderWay({ before: plan, after: changed({ 'rest-warmth': 40 }), steps: inRest.steps, atMin: 280 }); // prettier-ignore
    expect(step(again, 'rest-drained')?.heldUntil).toHaveLength(2);
  });
});
