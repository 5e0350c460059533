import { describe, expect, it } from 'vitest';
import { makeNamed } from '../../../tests/makes.ts';
import { careSchema, RINDS_KEPT } from '../../record/care-plan.ts';
import { RINDS } from '../../science/ageing.ts';
import { careOfMake } from './care-of-make.ts';
import { STYLE_CARE, STYLES } from './styles.ts';

const figure = (value: number) => ({ value, source: 'common practice' });
const age = (set: object, days: number) => ({ verb: 'age', name: 'Age', set, until: { join: 'first', of: [{ kind: 'days', days: figure(days) }] } }); // prettier-ignore
const make = (...steps: object[]) => ({ name: 'Board cheese', family: 'washed', steps: [{ verb: 'press' }, ...steps] });

describe('the care that a make asks for', () => {
  it('is its own age steps, one stay each, the last until it is eaten', () => {
    const { care, rind, isFromMake } = careOfMake(make(age({ atC: figure(13), humidityPercent: figure(85), rind: 'bare', turnDays: figure(1) }, 20), age({ atC: figure(10), humidityPercent: figure(80), rind: 'waxed', turnDays: figure(7) }, 70))); // prettier-ignore
    expect(isFromMake).toBe(true);
    expect(rind).toBe('bare');
    expect(care.stays).toEqual([
      { days: 20, temperatureC: 13, humidityPercent: 85, every: { turn: 1 } },
      { temperatureC: 10, humidityPercent: 80, every: { turn: 7 }, once: ['wax', 'move'] },
    ]);
    expect(care).toMatchObject({ tasteDays: [72], readyDays: { from: 90, to: 135 } });
  });

  it('is the custom of its family where the make does not age it, and a bare plan where nothing is known', () => {
    expect(careOfMake(make())).toMatchObject({ isFromMake: false, rind: 'bare', cheese: 'Board cheese' });
    expect(careOfMake(make()).care.readyDays).toEqual({ from: 60, to: 120 });
    expect(careOfMake(null).care).toEqual(STYLE_CARE.own.care);
    expect(careOfMake(makeNamed('stretched-ball')).isFromMake).toBe(false);
  });

  it('of every style holds what the record takes, with its source', () => {
    for (const style of STYLES) {
      expect(careSchema.parse(STYLE_CARE[style].care)).toEqual(STYLE_CARE[style].care);
      if (style !== 'own') expect(STYLE_CARE[style].care.source.length).toBeGreaterThan(30);
    }
    expect([...RINDS_KEPT]).toEqual([...RINDS]);
  });
});
