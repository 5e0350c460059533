import { describe, expect, it } from 'vitest';
import { makeNamed, planFor, TO_DRAINED_REST, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import { InputError } from '../numbers/validity.ts';
import { adoptedHistory, adoptedPlan, type Adopted } from './adopt.ts';
import { departureSchema } from './departure.ts';
import type { History } from './history.ts';
import { makeSchema } from './make.ts';
import { takesOverAt, turnedInto } from './other-cheese.ts';

const answers = { milk: { volumeL: 12 } };
const plan = planFor();
const string = makeNamed('stretched-string');
const drained = underWay({ nowMin: 280, ended: TO_DRAINED_REST, running: 'rest-drained' });
const stirring = underWay({ nowMin: 150, ended: TO_WHEY_REST.slice(0, 8), running: 'stir' });
const adopt = (history: History, choice: Adopted) => adoptedPlan({ plan, answers, steps: history.steps, atMin: history.nowMin, choice }); // prettier-ignore

describe('a choice adopted at the vat', () => {
  it('changes nothing where it changes nothing', () => {
    expect(adopt(drained, {}).plan).toBe(plan);
    expect(adoptedHistory(drained, {})).toBe(drained);
  });

  it('puts the curd in the fridge after the rest that runs, and the rest goes on afterwards with its aim', () => {
    const chill = { kind: 'chill', afterStepId: 'rest-drained', atC: 4, minutes: 840 } as const;
    const ends = { kind: 'minutes', stepId: 'rest-drained', minutes: 38 } as const;
    const chilled = adopt(drained, { departures: [chill, ends] }).plan;
    const ids = chilled.steps.map((step) => step.id);
    const at = ids.indexOf('rest-drained');
    expect(ids.slice(at, at + 4)).toEqual(['rest-drained', 'chill-curd', 'rest-drained-again', 'stretch']);
    expect(chilled.steps[at]?.until.of).toMatchObject([{ kind: 'time', minutes: { value: 38 } }]);
    expect(chilled.steps[at + 2]?.until).toEqual(plan.steps.find((step) => step.id === 'rest-drained')?.until);
    expect(chilled.make.aims[0]?.moment).toBe('rest-drained-again');
    expect(makeSchema.safeParse(chilled.make).success).toBe(true);
  });

  it('chills once only, and knows no step that is not there', () => {
    const chill = { kind: 'chill', afterStepId: 'drain', atC: 4, minutes: 840 } as const;
    const twice = adopt(stirring, { departures: [chill, chill] }).plan;
    expect(twice.steps.filter((step) => step.verb === 'chillCurd')).toHaveLength(1);
    expect(adopt(stirring, { departures: [{ ...chill, afterStepId: 'nowhere' }] }).plan.steps).toEqual(plan.steps);
  });

  it('turns it into another cheese from the next step on, with what was done left as it was', () => {
    const turned = adopt(stirring, { departures: [{ kind: 'otherMake', make: string, afterStepId: 'stir' }] }).plan;
    expect(turned.make.id).toBe('stretched-string');
    expect(turned.steps.find((step) => step.id === 'cut')?.set.cubeMm).toBe(12);
    expect(turned.steps.find((step) => step.id === 'draw-whey')?.set.fractionOfVat).toBe(0.2);
    expect(turned.steps.find((step) => step.id === 'stir')?.until.of).toMatchObject([{ minutes: { value: 30 } }]);
    expect(turned.setup).toEqual(plan.setup);
    expect(turned.make.model['wheyEndFraction']).toEqual(plan.make.model['wheyEndFraction']);
    expect(turned.make.model['stretchWaterGainPercent']).toEqual(string.model['stretchWaterGainPercent']);
  });

  it('takes a figure inside its range, refuses one outside', () => {
    expect(adopt(drained, { changes: { 'rest-warmth': 40 } }).plan.steps.find((step) => step.id === 'rest-drained')?.set.atC).toBe(40); // prettier-ignore
    expect(() => adopt(drained, { changes: { 'rest-warmth': 70 } })).toThrow(InputError);
  });

  it('goes on without a meter, and with one again', () => {
    const without = adopt(drained, { departures: [{ kind: 'withoutMeter' }] });
    expect([without.plan.setup.pHMeter, without.answers.instruments?.pHMeter]).toEqual([false, false]);
    const again = adoptedPlan({ ...without, steps: drained.steps, atMin: 281, choice: { departures: [{ kind: 'withMeter' }] } }); // prettier-ignore
    expect(again.plan.setup.pHMeter).toBe(true);
  });

  it('leaves the plan alone where something is only done to the vat, and the history remembers it', () => {
    const cooled = { kind: 'temperature', elapsedMin: 160, minutes: 0, temperatureC: 38 } as const;
    const more = { ingredient: 'calcium', fractionOfPlan: 0.5, elapsedMin: 150 } as const;
    const choice: Adopted = {
      departures: [
        { kind: 'done', what: cooled },
        { kind: 'added', ...more },
      ],
    };
    expect(adopt(stirring, choice).plan).toBe(plan);
    expect(adoptedHistory(stirring, choice)).toEqual({ ...stirring, disturbances: [cooled], additions: [more] });
  });
});

describe('another cheese', () => {
  const ball = makeNamed('stretched-ball');

  it('can take over while both have come the same way, and not once ours has done what the other never does', () => {
    expect(takesOverAt({ from: ball, to: string, afterStepId: 'stir' })).toBe(9);
    const unlike = { ...string, steps: string.steps.filter((step) => step.verb !== 'heal') };
    expect(takesOverAt({ from: ball, to: unlike, afterStepId: 'set' })).toBe(6);
    expect(takesOverAt({ from: ball, to: unlike, afterStepId: 'stir' })).toBeNull();
    expect(takesOverAt({ from: ball, to: string, afterStepId: 'store' })).toBeNull();
    const { culture } = string.doses;
    if (culture === undefined) throw new Error('string cheese is made with a culture');
    const other = {
      ...string,
      doses: { ...string.doses, culture: { ...culture, kind: 'mesophilic' as const } },
    };
    expect(takesOverAt({ from: ball, to: other, afterStepId: 'add-culture' })).toBeNull();
    expect(() => turnedInto({ from: ball, to: other, afterStepId: 'stir' })).toThrow(RangeError);
  });

  it('never uses an id twice, and its aims follow the steps they are meant for', () => {
    const clashing = { ...string, steps: string.steps.map((step) => (step.id === 'drain' ? { ...step, id: 'stir' } : step.id === 'stir' ? { ...step, id: 'stir-first' } : step)) }; // prettier-ignore
    const turned = turnedInto({ from: ball, to: clashing, afterStepId: 'stir' });
    const ids = turned.steps.map((step) => step.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).toContain(turned.aims[0]?.moment);
  });
});

describe('departures in the record', () => {
  it('are read back as they were written', () => {
    const departures = [
      { kind: 'otherMake', make: string, afterStepId: 'stir' },
      { kind: 'added', ingredient: 'rennet', fractionOfPlan: 0.5, elapsedMin: 100 },
      { kind: 'withoutMeter' },
    ] as const;
    for (const departure of departures) {
      const written: unknown = JSON.parse(JSON.stringify(departure));
      expect(departureSchema.parse(written)).toEqual(written);
    }
    expect(departureSchema.safeParse({ kind: 'chill', afterStepId: 'drain', atC: 4, minutes: 0 }).success).toBe(false);
  });
});
