import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { makeNamed, planFor, TO_DRAINED_REST, TO_SETTING, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import { advise, type Advice } from '../forecast/advise.ts';
import { situationOf } from '../forecast/choices.ts';
import { remediesOf } from '../forecast/remedies.ts';
import { onCourse, type CourseReason, type OnCourse } from '../forecast/on-course.ts';
import { simulate } from '../forecast/simulate.ts';
import type { History } from '../make/history.ts';
import { MISHAPS } from '../make/mishaps.ts';
import { choiceTold, goOnTold, meansTold, outsideTold } from './advice-told.ts';
import { whenText, type AdviceTelling } from './chance-told.ts';
import { courseTold } from './course-told.ts';
import { openWords, sayFrom } from './words.ts';
import { openWriter } from './written.ts';

const folder = new URL('../../words/en-GB/', import.meta.url);
const files = Object.fromEntries(readdirSync(folder).map((file) => [file.replace('.json', ''), JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as object])); // prettier-ignore
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': files } }));
const telling = (nowMin: number, units: 'metric' | 'us' = 'metric'): AdviceTelling => ({ say, write: openWriter({ language: 'en-GB', units, timeZone: 'UTC' }), zeroAt: Date.UTC(2026, 2, 4, 9), nowMin }); // prettier-ignore
const answers = { milk: { volumeL: 12 } };
const plan = planFor();
const others = [makeNamed('stretched-string')];
const MEMBERS = 20;
const setting = underWay({ nowMin: 100, ended: TO_SETTING, running: 'set' });
const resting = underWay({ nowMin: 200, ended: TO_WHEY_REST, running: 'rest-in-whey' });
const drained = underWay({ nowMin: 290, ended: TO_DRAINED_REST, running: 'rest-drained' });

/** What is left of a key or a blank where words are missing. */
const BROKEN = /\{\{|undefined|NaN|Infinity|\b(advice|vat|record|findings):|\b(choice|risk|because|mishap)\.[a-z]/;

function told(
  history: History,
  mishap: Parameters<typeof advise>[0]['mishap'] | null,
  units: 'metric' | 'us' = 'metric',
): { readonly texts: string[]; readonly advice: Advice } {
  // prettier-ignore
  const advice = advise({ plan, answers, history, others, members: MEMBERS, seed: 1, ...(mishap === null || mishap === undefined ? {} : { mishap }) }); // prettier-ignore
  if ('outside' in advice) throw new Error('outside');
  const at = telling(history.nowMin, units);
  const choices = advice.choices.map((choice) => choiceTold(choice, advice, mishap?.what ?? null, at));
  const texts = [goOnTold(advice, at), ...choices].flatMap(({ title, done, chances, becomes, risks }) => [title, done, ...chances, becomes, ...risks]); // prettier-ignore
  const all = [...texts, meansTold(advice.goOn, advice.goOn, at)];
  expect(all.filter((text) => BROKEN.test(text))).toEqual([]);
  return { texts: all, advice };
}

describe('advice in words', () => {
  it('has words for every mishap and whatever can be done about it', () => {
    const stands = new Map([setting, resting, drained].map((history) => {
      const { advice } = told(history, null);
      const forecast = simulate({ plan, history, members: MEMBERS, seed: 1 });
      return [history, { advice, situation: situationOf({ plan, answers, history, forecast, untilTomorrowMin: 900 }) }] as const;
    })); // prettier-ignore
    let said = 0;
    for (const { id, asks } of MISHAPS) {
      for (const [history, { advice, situation }] of stands) {
        const mishap = { what: id, elapsedMin: history.nowMin, ...(asks.includes('temperature') ? { temperatureC: 45 } : {}), ...(asks.includes('minutes') ? { minutes: 30 } : {}), ...(asks.includes('ingredient') ? { ingredient: 'rennet' } : {}), ...(asks.includes('share') ? { fractionOfPlan: 0.5 } : {}) }; // prettier-ignore
        for (const candidate of remediesOf(situation, mishap)) {
          const choice = { ...candidate, forecast: advice.goOn, isSame: true };
          const { title, done, chances, becomes, risks } = choiceTold(choice, advice, id, telling(history.nowMin));
          said += 1;
          expect([title, done, ...chances, becomes, ...risks].join(' '), `${id}.${candidate.id}`).not.toMatch(BROKEN);
        }
      }
    }
    expect(said).toBeGreaterThan(30);
  });

  it('says each choice with a finish, a span and a chance in numbers', () => {
    const { texts } = told(drained, null);
    expect(texts[0]).toBe('Go on as planned');
    expect(texts[1]).toMatch(/^Done about \d\d:\d\d, 9 times in 10 between \d\d:\d\d and \d\d:\d\d\.$/);
    expect(texts[2]).toMatch(/^(About \d in 10|Less than 1 in 20|More than 19 in 20) for the acid \(pH 5\.0 to 5\.3 at its moment\)\.$/); // prettier-ignore
    expect(texts.join(' ')).toMatch(
      /Chill the curd now, at 4\s°C or colder; go on tomorrow\..*Done about \d\d:\d\d tomorrow/,
    );
    expect(texts.join(' ')).toMatch(/Turn it into Stretched string from the next step on\./);
    expect(told(drained, null, 'us').texts.join(' ')).toMatch(/at 39\s°F or colder/);
  });

  it('names the day where it is not today', () => {
    const at = telling(200);
    expect(whenText(300, at)).toBe('14:00');
    expect(whenText(1500, at)).toBe('10:00 tomorrow');
    expect(whenText(3000, at)).toBe('11:00 on Friday 6 March');
  });

  it('says where the sums end', () => {
    const outside = (value: number, field: 'temperatureC' | 'minutes' = 'temperatureC') => outsideTold({ outside: { field, value, low: field === 'minutes' ? 0 : 1, high: field === 'minutes' ? 1440 : 60 } }, telling(100)); // prettier-ignore
    expect(outside(72).text).toMatch(/^Outside what the sums hold for \(72\s°C; they hold from 1\s°C to 60\s°C\)\.$/);
    for (const { text, known } of [outside(72), outside(0), outside(2000, 'minutes')]) expect(`${text} ${known}`).not.toMatch(BROKEN); // prettier-ignore
    expect(outside(72).known).not.toBe(outside(0).known);
  });
});

describe('the course in words', () => {
  const forecast = simulate({ plan, history: drained, members: MEMBERS, seed: 1 });
  const course = onCourse({ plan, history: drained, forecast, planned: null });

  it('has a sentence for every state and every reason', () => {
    const reasons: CourseReason[] = [
      { code: 'begun', minutes: 25 },
      { code: 'begun', minutes: -25 },
      { code: 'hot-spell', temperatureC: 50, minutes: 10 },
      { code: 'cold-spell', temperatureC: 20, minutes: 10 },
      { code: 'no-heat', minutes: 60 },
      { code: 'dose', ingredient: 'culture', fractionOfPlan: 0.5 },
      ...(['acid', 'setting', 'heating', 'whey', 'cooling', 'hands'] as const).map((code) => ({ code })),
    ];
    for (const state of ['on-course', 'early', 'late', 'off', 'too-little'] as const) {
      for (const because of [null, ...reasons]) {
        for (const later of [30, -30]) {
          const one: OnCourse = {
            ...course,
            state,
            because,
            stepId: 'rest-drained',
            nowMin: 320 + later,
            plannedMin: 320,
          };
          const { text, because: why } = courseTold(one, plan, telling(290));
          expect(`${text} ${why ?? ''}`).not.toMatch(BROKEN);
        }
      }
    }
  });

  it('says the consequence, then the reason', () => {
    const late: OnCourse = { ...course, state: 'late', because: { code: 'acid' }, stepId: 'rest-drained', nowMin: 350, plannedMin: 320 }; // prettier-ignore
    expect(courseTold(late, plan, telling(290))).toEqual({ text: 'Slower: “It stretches” about 14:50, not 14:20.', because: 'The acid comes slower than expected.' }); // prettier-ignore
    const off: OnCourse = { ...late, state: 'off', aim: { index: 0, chance: 0.41, atMin: 360 } };
    expect(courseTold(off, plan, telling(290)).text).toBe('The aim is slipping: about 4 in 10 to come out between pH 5.0 and 5.3 by 15:00.'); // prettier-ignore
  });
});
