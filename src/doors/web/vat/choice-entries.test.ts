import { describe, expect, it } from 'vitest';
import { advise, type Advice } from '../../../forecast/advise.ts';
import { mishapNamed } from '../../../make/mishaps.ts';
import { batchBodies } from '../../../record/event.ts';
import { makeNamed, planFor, TO_DRAINED_REST, TO_SETTING, underWay } from '../../../../tests/makes.ts';
import { choiceEntries, goOnEntry, mishapEntry } from './choice-entries.ts';
import { temperatureTiles, toldOfDraft, type ToldDraft } from './told-draft.ts';

const plan = planFor();
const history = underWay({ nowMin: 280, ended: TO_DRAINED_REST, running: 'rest-drained' });
const setting = underWay({ nowMin: 100, ended: TO_SETTING, running: 'set' });
const answer = advise({ plan, answers: { milk: { volumeL: 12 } }, history, others: [makeNamed('stretched-string')], members: 20 }); // prettier-ignore
const advice = answer as Advice;
const taken = { title: 'Chill it', because: 'I must leave', said: 'Done about 10:00 tomorrow.' };

describe('a choice in the record', () => {
  it('is kept with the forecast that was shown, and with what it changes', () => {
    const choice = advice.choices.find(({ kind }) => kind === 'chill');
    if (choice === undefined) throw new Error('no fridge');
    const [entry, ended] = choiceEntries({ choice, advice, history, taken });
    const body = batchBodies.choiceTaken.parse(entry?.body);
    expect(body).toMatchObject({ choice: 'Chill it', because: 'I must leave', forecastShown: { seed: 1, members: 20, chance: choice.forecast.chance, said: taken.said } }); // prettier-ignore
    expect(body.departures?.[0]).toMatchObject({ kind: 'chill', afterStepId: 'rest-drained' });
    // The rest that it cuts short is over as it is taken.
    expect(ended).toEqual({ kind: 'stepEnded', body: { stepId: 'rest-drained', said: 'Chill it' } });
  });

  it('of another cheese holds that make, frozen', () => {
    const choice = advice.choices.find(({ kind }) => kind === 'otherMake');
    if (choice === undefined) throw new Error('no other cheese');
    const [entry, ...more] = choiceEntries({ choice, advice, history, taken });
    const { departures } = batchBodies.choiceTaken.parse(JSON.parse(JSON.stringify(entry?.body)));
    expect(departures?.[0]).toMatchObject({ kind: 'otherMake', make: { id: 'stretched-string' } });
    expect(more).toEqual([]);
  });

  it('to go on changes nothing, and says what was shown all the same', () => {
    const { kind, body } = goOnEntry(advice, taken);
    expect(kind).toBe('choiceTaken');
    expect(Object.keys(body)).toEqual(['choice', 'because', 'forecastShown']);
  });

  it('says of a mishap only what was told', () => {
    expect(mishapEntry({ what: 'tooHot', elapsedMin: 280, temperatureC: 44, minutes: 10 }).body).toEqual({ what: 'tooHot', temperatureC: 44, minutes: 10 }); // prettier-ignore
    expect(mishapEntry({ what: 'meterDead', elapsedMin: 280 }).body).toEqual({ what: 'meterDead' });
  });
});

describe('telling a mishap', () => {
  const tell = (draft: ToldDraft, at = history) => {
    const mishap = mishapNamed(draft.what);
    if (mishap === undefined) throw new Error(draft.what);
    return toldOfDraft({ draft, mishap, plan, history: at });
  };

  it('waits for the first question, and takes the second for granted until it is answered', () => {
    expect(tell({ what: 'tooHot' })).toBeNull();
    expect(tell({ what: 'tooHot', minutes: 20 })).toBeNull();
    expect(tell({ what: 'tooHot', temperatureC: 44 })).toEqual({ told: { what: 'tooHot', elapsedMin: 280, temperatureC: 44, minutes: 10 }, taken: 'minutes' }); // prettier-ignore
    expect(tell({ what: 'tooHot', temperatureC: 44, minutes: 20 })?.taken).toBeNull();
    expect(tell({ what: 'powerCut' })).toBeNull();
    expect(tell({ what: 'meterDead' })).toEqual({ told: { what: 'meterDead', elapsedMin: 280 }, taken: null });
  });

  it('asks which ingredient only where more than one has gone in', () => {
    const first = { ...setting, steps: setting.steps.slice(0, 2) };
    expect(tell({ what: 'wrongAmount' }, setting)).toBeNull();
    expect(tell({ what: 'wrongAmount' }, first)).toMatchObject({ told: { ingredient: 'culture', fractionOfPlan: 0.5 }, taken: 'share' }); // prettier-ignore
  });

  it('offers temperatures away from the step’s own, in whole degrees of the reader', () => {
    const step = plan.steps.find(({ id }) => id === 'rest-drained') ?? null;
    expect(temperatureTiles({ step, isHot: true, units: 'metric', page: 0 }).slice(0, 3)).toEqual([40, 41, 42]);
    expect(temperatureTiles({ step, isHot: true, units: 'metric', page: 1 })[0]).toBe(55);
    expect(temperatureTiles({ step, isHot: false, units: 'metric', page: 0 })[0]).toBe(38);
    const us = temperatureTiles({ step, isHot: true, units: 'us', page: 0 });
    expect((us[0] ?? 0) * 1.8 + 32).toBeCloseTo(104, 6);
  });
});
