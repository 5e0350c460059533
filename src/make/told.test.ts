import { describe, expect, it } from 'vitest';
import { planFor, TO_SETTING, underWay } from '../../tests/makes.ts';
import { MISHAPS, mishapsFor } from './mishaps.ts';
import { ingredientsIn, outsideOf, toldDepartures, toldHistory, type Told } from './told.ts';

const setting = underWay({ nowMin: 100, ended: TO_SETTING, running: 'set' });
const told = (what: string, more: Omit<Told, 'what' | 'elapsedMin'> = {}) => toldHistory({ history: setting, told: { what, elapsedMin: 100, ...more } }); // prettier-ignore

describe('a mishap told', () => {
  it('is a spell at a temperature, or one without heat, that has just ended', () => {
    expect(told('tooHot', { temperatureC: 44, minutes: 10 }).disturbances).toEqual([
      { kind: 'temperature', elapsedMin: 90, minutes: 10, temperatureC: 44 },
    ]);
    expect(told('powerCut', { minutes: 30 }).disturbances).toEqual([{ kind: 'noHeat', elapsedMin: 70, minutes: 30 }]);
  });

  it('sets right what was noted as it went in, and leaves what came later', () => {
    const noted = [
      { ingredient: 'rennet' as const, fractionOfPlan: 1, elapsedMin: 84 },
      { ingredient: 'calcium' as const, fractionOfPlan: 1, elapsedMin: 82 },
    ];
    const twice = toldHistory({ history: { ...setting, additions: noted }, told: { what: 'addedTwice', elapsedMin: 90, ingredient: 'rennet' } }); // prettier-ignore
    expect(twice.additions).toEqual([{ ingredient: 'rennet', fractionOfPlan: 2, elapsedMin: 84 }, noted[1]]);
    expect(told('forgotToAdd', { ingredient: 'calcium' }).additions).toMatchObject([{ ingredient: 'calcium', fractionOfPlan: 0 }]); // prettier-ignore
  });

  it('is a judgement where it is one', () => {
    expect(told('noSet').judgements).toEqual([{ judgement: 'cleanBreak', grade: 'not-yet', elapsedMin: 100 }]);
  });

  it('changes nothing while its questions are open, or where the sums know nothing of it', () => {
    for (const what of [
      'tooHot',
      'powerCut',
      'forgotToAdd',
      'wrongAmount',
      'spilled',
      'oddSmell',
      'meterDead',
      'unheard-of',
    ]) {
      // prettier-ignore
      expect(told(what), what).toEqual(setting);
    }
    expect(toldDepartures({ what: 'meterDead', elapsedMin: 100 })).toEqual([{ kind: 'withoutMeter' }]);
    expect(toldDepartures({ what: 'tooHot', elapsedMin: 100, temperatureC: 44 })).toEqual([]);
  });

  it('says where the sums end', () => {
    expect(outsideOf({ what: 'tooHot', elapsedMin: 100, temperatureC: 60, minutes: 10 })).toBeNull();
    expect(outsideOf({ what: 'tooHot', elapsedMin: 100, temperatureC: 72 })).toMatchObject({ field: 'temperatureC', high: 60 }); // prettier-ignore
    expect(outsideOf({ what: 'powerCut', elapsedMin: 100, minutes: 2000 })).toMatchObject({ field: 'minutes' });
  });

  it('asks only after what has begun to go in, the last first', () => {
    expect(ingredientsIn({ plan: planFor(), history: setting })).toEqual(['rennet', 'calcium', 'culture']);
    expect(ingredientsIn({ plan: planFor(), history: { ...setting, steps: setting.steps.slice(0, 2) } })).toEqual(['culture']); // prettier-ignore
  });
});

describe('the list of mishaps', () => {
  it('asks two questions at most, names its source, and offers eight for a step at the most', () => {
    for (const mishap of MISHAPS) {
      expect(mishap.asks.length, mishap.id).toBeLessThanOrEqual(2);
      expect(mishap.source.length, mishap.id).toBeGreaterThan(5);
      expect(mishap.choices.length, mishap.id).toBeGreaterThan(0);
    }
    expect(new Set(MISHAPS.map(({ id }) => id)).size).toBe(MISHAPS.length);
    for (const verb of ['warm', 'set', 'cut', 'wash', 'restToAcid', 'stretch', 'brine'] as const) {
      const { first, others } = mishapsFor(verb);
      expect(first.length).toBeLessThanOrEqual(8);
      expect(first.length).toBeGreaterThan(2);
      expect(first.length + others.length).toBe(MISHAPS.length);
    }
  });

  it('has too hot and too cold first wherever milk or curd stands warm', () => {
    const warm = ['warm', 'hold', 'add', 'ripen', 'set', 'cut', 'heal', 'stir', 'cook', 'settle', 'drawWhey', 'wash', 'mat', 'restToAcid'] as const; // prettier-ignore
    for (const verb of warm) {
      expect(mishapsFor(verb).first.slice(0, 2).map(({ id }) => id), verb).toEqual(['tooHot', 'tooCold']); // prettier-ignore
      // What a step has of its own is not pushed out by them, nor is having to leave.
      expect(
        mishapsFor(verb).first.some(({ id }) => id === 'mustLeave'),
        verb,
      ).toBe(true);
    }
    expect(mishapsFor('set').first.map(({ id }) => id)).toContain('noSet');
    expect(mishapsFor('add').first.map(({ id }) => id)).toEqual(expect.arrayContaining(['forgotToAdd', 'addedTwice', 'wrongAmount'])); // prettier-ignore
    for (const verb of ['cool', 'brine', 'store'] as const) {
      expect(
        mishapsFor(verb).first.map(({ id }) => id),
        verb,
      ).not.toContain('tooHot');
    }
  });

  it('asks what a mishap means by: a temperature where it stood at one, a share where the dose was another', () => {
    for (const { id, asks, means, fractionOfPlan } of MISHAPS) {
      if (means === 'temperature') expect(asks, id).toEqual(['temperature', 'minutes']);
      if (means === 'noHeat') expect(asks, id).toEqual(['minutes']);
      if (means === 'dose') expect(asks, id).toEqual(fractionOfPlan === undefined ? ['ingredient', 'share'] : ['ingredient']); // prettier-ignore
    }
  });
});
