import { describe, expect, it } from 'vitest';
import { makeNamed, planFor, TO_DRAINED_REST, TO_SETTING, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import type { History } from '../make/history.ts';
import type { Told } from '../make/told.ts';
import { adoptedOf, advise, afterTold, type Advice, type AdviseInput } from './advise.ts';
import { choiceForecast } from './choice-forecast.ts';
import { simulate } from './simulate.ts';

const answers = { milk: { volumeL: 12 } };
const plan = planFor();
const others = [makeNamed('stretched-string')];
const SEED = 5;
const MEMBERS = 40;
const ripening = underWay({ nowMin: 60, ended: TO_SETTING.slice(0, 2), running: 'ripen' });
const setting = underWay({ nowMin: 100, ended: TO_SETTING, running: 'set' });
const stirring = underWay({ nowMin: 150, ended: TO_WHEY_REST.slice(0, 8), running: 'stir' });
const resting = underWay({ nowMin: 200, ended: TO_WHEY_REST, running: 'rest-in-whey' });
const drained = underWay({ nowMin: 280, ended: TO_DRAINED_REST, running: 'rest-drained' });
const read: History = {
  ...drained,
  readings: [
    { quantity: 'flocculationMin', value: 12, sample: 'milk', elapsedMin: 96 },
    { quantity: 'pH', value: 5.72, sample: 'curd', elapsedMin: 250 },
  ],
};

const input = (history: History, mishap?: Told): AdviseInput => ({ plan, answers, history, others, members: MEMBERS, seed: SEED, ...(mishap === undefined ? {} : { mishap }) }); // prettier-ignore
const known = new Map<string, Advice>();
const advised = (history: History, mishap?: Told): Advice => {
  const key = JSON.stringify([history, mishap]);
  const answer = known.get(key) ?? advise(input(history, mishap));
  if ('outside' in answer) throw new Error('outside');
  known.set(key, answer);
  return answer;
};
const told = (history: History, what: string, more: Omit<Told, 'what' | 'elapsedMin'> = {}): Told => ({ what, elapsedMin: history.nowMin, ...more }); // prettier-ignore

describe('choices from here', () => {
  const situations: readonly (readonly [string, History, Told | undefined])[] = [
    ['setting', setting, undefined],
    ['stirring', stirring, undefined],
    ['drained and read', read, undefined],
    ['overheated', resting, told(resting, 'tooHot', { temperatureC: 59, minutes: 20 })],
    ['half the culture', ripening, told(ripening, 'wrongAmount', { ingredient: 'culture', fractionOfPlan: 0.5 })],
  ];

  it.each(situations)(
    '%s: each says what simulating the changed plan says, with the same seed',
    (_, history, mishap) => {
      const { goOn, choices } = advised(history, mishap);
      const stands = mishap === undefined ? { plan, answers, history } : afterTold({ plan, answers, history }, mishap);
      const of = (given: { plan: typeof plan; history: History }) => choiceForecast(given.plan, simulate({ ...given, members: MEMBERS, seed: SEED })); // prettier-ignore
      expect(goOn).toEqual(of(stands));
      for (const choice of choices) {
        const adopted = adoptedOf({ ...stands, nowMin: history.nowMin }, choice);
        expect(adopted, choice.id).not.toBeNull();
        // Cautions are told from the culture's own forecast too, which the choice shares with going on.
        if (adopted !== null) expect({ ...choice.forecast, findings: [] }, choice.id).toEqual({ ...of(adopted), findings: [] }); // prettier-ignore
      }
    },
  );

  it('are four at most and stand best first', () => {
    for (const [name, history, mishap] of situations) {
      const advice = advised(history, mishap);
      expect(advice.choices.length, name).toBeLessThanOrEqual(4);
      const chances = advice.choices.map((choice) => Math.round(choice.forecast.chance / 0.05));
      expect(chances, name).toEqual([...chances].sort((a, b) => b - a));
    }
  });

  it('come out the same for the same seed', () => {
    expect(advise(input(drained))).toEqual(advised(drained));
  });

  it('never name what cannot be done any more', () => {
    const ids = (history: History): string[] => advised(history).choices.map(({ id }) => id);
    expect(ids(drained)).not.toContain('cube-');
    expect(ids(ripening)).not.toContain('chill');
    const stretching = ids(underWay({ nowMin: 300, ended: [...TO_DRAINED_REST, ['rest-drained', 296]], running: 'stretch' })); // prettier-ignore
    expect(stretching.filter((id) => !id.startsWith('brine'))).toEqual([]);
    expect(advised({ ...ripening, nowMin: 0, steps: [] }).choices).toEqual([]);
  });

  it('offer a test piece only where one could already pass, with its chance', () => {
    const test = (history: History) => advised(history).choices.find(({ kind }) => kind === 'test');
    expect(test(resting)).toBeUndefined();
    const passes = test({ ...drained, nowMin: 300 })?.fields['passes'];
    expect(passes).toBeGreaterThan(0.1);
    expect(passes).toBeLessThanOrEqual(1);
  });

  it('turn it into another cheese of the make files, which then has that cheese’s own aims', () => {
    const choice = advised(stirring).choices.find(({ kind }) => kind === 'otherMake');
    expect(choice?.forecast.makeId).toBe('stretched-string');
    expect(choice?.forecast.aims.find(({ quantity }) => quantity === 'moisturePercent')?.high).toBe(52);
  });

  it('chill the curd tonight and stretch tomorrow, so that it is done tomorrow', () => {
    const { goOn, choices } = advised(drained);
    const chill = choices.find(({ kind }) => kind === 'chill');
    expect(chill?.forecast.endMin.p50).toBeGreaterThan(goOn.endMin.p50 + 600);
    expect(chill?.forecast.chance).toBeGreaterThan(0.5);
  });

  it('say how long the fridge lasts by when the morrow begins', () => {
    const choices = (untilTomorrowMin: number) => {
      const answer = advise({ ...input(drained), untilTomorrowMin });
      return 'outside' in answer ? [] : answer.choices;
    };
    expect(choices(900).find(({ kind }) => kind === 'chill')?.fields['minutes']).toBe(900);
  });
});

describe('a mishap told', () => {
  const chanceOf = (choice: { readonly forecast: { readonly chance: number } } | undefined): number => choice?.forecast.chance ?? Number.NaN; // prettier-ignore
  const remedy = (advice: Advice, says: string) => advice.choices.find((choice) => choice.says === says);

  it('half the culture: ready later, and the other half made up for brings most of it back', () => {
    const plain = advised(ripening).goOn.endMin.p50;
    const advice = advised(ripening, told(ripening, 'wrongAmount', { ingredient: 'culture', fractionOfPlan: 0.5 }));
    expect(advice.goOn.endMin.p50).toBeGreaterThan(plain + 10);
    const madeUp = remedy(advice, 'makeUp');
    expect(madeUp?.forecast.endMin.p50).toBeLessThan(advice.goOn.endMin.p50 - 5);
  });

  it('too hot for the culture: later and less likely; cooled down at once it is better than left', () => {
    const advice = advised(resting, told(resting, 'tooHot', { temperatureC: 59, minutes: 20 }));
    expect(advice.goOn.chance).toBeLessThan(advised(resting).goOn.chance - 0.1);
    expect(chanceOf(remedy(advice, 'coolDown'))).toBeGreaterThan(advice.goOn.chance);
  });

  it('too hot while the whey is drawn, which sets no warmth of its own: cooled to what the curd was held at before', () => {
    const drawing = underWay({ nowMin: 167, ended: TO_WHEY_REST.slice(0, 10), running: 'draw-whey' });
    const cooled = remedy(advised(drawing, told(drawing, 'tooHot', { temperatureC: 50, minutes: 10 })), 'coolDown');
    expect(cooled?.choice.departures).toMatchObject([
      { what: { kind: 'temperature', temperatureC: 37, elapsedMin: 177 } },
    ]);
  });

  it('too hot for the sums: says so, and forecasts nothing', () => {
    const answer = advise(input(stirring, told(stirring, 'tooHot', { temperatureC: 66, minutes: 5 })));
    expect(answer).toEqual({ outside: { field: 'temperatureC', value: 66, low: 1, high: 60 } });
  });

  it('too cool: later; warmed up again it is earlier than left to itself', () => {
    const advice = advised(drained, told(drained, 'tooCold', { temperatureC: 25, minutes: 40 }));
    expect(advice.goOn.endMin.p50).toBeGreaterThan(advised(drained).goOn.endMin.p50);
    expect(remedy(advice, 'rewarm')?.forecast.endMin.p50).toBeLessThan(remedy(advice, 'waitLonger')?.forecast.endMin.p50 ?? 0); // prettier-ignore
  });

  it('forgot the calcium: cut later; given now, sooner than without', () => {
    const advice = advised(setting, told(setting, 'forgotToAdd', { ingredient: 'calcium' }));
    expect(advice.goOn.endMin.p50).toBeGreaterThan(advised(setting).goOn.endMin.p50);
    expect(remedy(advice, 'addNow')?.forecast.endMin.p50).toBeLessThan(advice.goOn.endMin.p50);
  });

  it('forgot the culture: no aim without it, and one again with it', () => {
    const advice = advised(setting, told(setting, 'forgotToAdd', { ingredient: 'culture' }));
    expect(advice.goOn.chance).toBe(0);
    expect(chanceOf(remedy(advice, 'addNow'))).toBeGreaterThan(0.5);
  });

  it('twice the rennet: the clean break comes sooner', () => {
    const mishap = told(setting, 'addedTwice', { ingredient: 'rennet' });
    const cutAt = (history: History): number => simulate({ plan, history, members: MEMBERS, seed: SEED }).steps.find(({ stepId }) => stepId === 'set')?.endMin.p50 ?? NaN; // prettier-ignore
    expect(cutAt(afterTold({ plan, answers, history: setting }, mishap).history)).toBeLessThan(cutAt(setting));
  });

  it('washed with too hot water: drier or later, and water stirred in cool is offered', () => {
    const washing = underWay({ nowMin: 175, ended: TO_WHEY_REST.slice(0, 11), running: 'wash' });
    const advice = advised(washing, told(washing, 'pouredTooHot', { temperatureC: 56, minutes: 10 }));
    const plain = advised(washing).goOn;
    expect(advice.goOn.endMin.p50).toBeGreaterThan(plain.endMin.p50);
    expect(remedy(advice, 'coolWater')?.forecast.endMin.p50).toBeLessThan(advice.goOn.endMin.p50);
  });

  it('power cut while it ripens: later, and a warm bath brings time back', () => {
    const advice = advised(ripening, told(ripening, 'powerCut', { minutes: 25 }));
    const ways = advice.choices.map((choice) => choice.says);
    expect(ways).toContain('bath');
    expect(remedy(advice, 'coverAndWait')?.forecast.endMin.p50).toBeGreaterThanOrEqual(remedy(advice, 'bath')?.forecast.endMin.p50 ?? 0); // prettier-ignore
  });

  it('late by an hour: what stood there has gone on souring, and it is known how far', () => {
    const late = { ...drained, nowMin: 340 };
    const advice = advised(late, told(late, 'late', { minutes: 60 }));
    expect(advice.goOn.endMin.p5).toBeGreaterThan(340);
    expect(advice.goOn.chance).toBeGreaterThan(0);
    expect(advice.choices.some((choice) => choice.says === 'rewarm')).toBe(true);
  });

  it('the meter dropped dead: hands judge, and the forecast stays useful', () => {
    const withMeter = { milk: { volumeL: 12 }, instruments: { pHMeter: true } };
    const metered = planFor({ answers: { instruments: { pHMeter: true } } });
    const stands = { plan: metered, answers: withMeter, history: drained, members: MEMBERS, seed: SEED };
    const before = advise(stands);
    const after = advise({ ...stands, mishap: told(drained, 'meterDead') });
    if ('outside' in before || 'outside' in after) throw new Error('outside');
    expect(after.goOn.chance).toBeGreaterThan(0.5);
    expect(after.goOn.endMin.p95 - after.goOn.endMin.p5).toBeLessThan(360);
    // Another meter is as it was.
    expect(remedy(after, 'another')?.forecast.endMin).toEqual(before.goOn.endMin);
    const judged = {
      ...drained,
      judgements: [{ judgement: 'stretch' as const, grade: 'tears-short', elapsedMin: 279 }],
    };
    const felt = advise({ ...stands, history: judged, mishap: told(judged, 'meterDead') });
    if ('outside' in felt) throw new Error('outside');
    expect(felt.goOn.endMin.p95 - felt.goOn.endMin.p5).toBeLessThan(after.goOn.endMin.p95 - after.goOn.endMin.p5);
  });

  it('must leave for an hour while the curd is nearly ready: covered and alone it goes too far', () => {
    const advice = advised(drained, told(drained, 'mustLeave', { minutes: 60 }));
    expect(chanceOf(remedy(advice, 'leaveCovered'))).toBeLessThan(advice.goOn.chance - 0.2);
    expect(remedy(advice, 'chillTonight')).toBeDefined();
  });
});
