import { describe, expect, it } from 'vitest';
import { makeNamed, planFor, TO_DRAINED_REST, underWay } from '../../tests/makes.ts';
import type { Plan } from '../make/plan.ts';
import { planMake } from '../make/planning.ts';
import type { Answers } from '../make/setup.ts';
import { InputError } from '../numbers/validity.ts';
import { FIGURE_AT } from './run.ts';
import type { Answer, Question, Way } from './question.ts';
import { membersOf, simulate } from './simulate.ts';
import { solve } from './solve.ts';

const answers: Answers = { milk: { volumeL: 12 }, culture: { packetTreatsL: 12 } };
const make = makeNamed('stretched-ball');
const plan = planMake({ make, answers });
const asked = new Map<Question, Answer>();
/** Each question is solved once, however many tests ask it. */
function ask(question: Question, more: object = {}): Answer {
  const answer = asked.get(question) ?? solve({ plan, answers, question, ...more });
  asked.set(question, answer);
  return answer;
}

const SALTIER: Question = { aims: [{ quantity: 'saltInMoisturePercent', low: 1.9, high: 2.8 }], free: [{ id: 'brine-minutes', low: 20, high: 120 }] }; // prettier-ignore
const LESS: Question = { aims: [{ quantity: 'cheeseKg', low: 1, high: 1.5 }], free: [{ id: 'milk' }] };
const SALTIER_SOON: Question = {
  aims: [{ quantity: 'endMin', low: Number.NEGATIVE_INFINITY, high: 480 }, { quantity: 'saltInMoisturePercent', low: 1.9, high: 2.8 }],
  free: [{ id: 'brine-strength' }, { id: 'brine-minutes' }, { id: 'rest-warmth' }],
  probability: 0.7,
}; // prettier-ignore

const OTHER_SEED = 977;
/** Four standard errors of the difference of two shares of 500. */
const tolerance = (share: number): number => 4 * Math.sqrt((2 * share * (1 - share)) / 500 + 1e-4);
const settingOf = (way: Way, id: string) => way.settings.find((one) => one.id === id);
const changes = (way: Way): string[] => way.settings.filter((one) => one.isChanged).map((one) => one.id);
/** The plan that a maker would make from a way's answers. */
const planned = (way: Way): Plan => planMake({ make, answers: way.answers });

describe('settings that reach an aim', () => {
  it('bring, in a forecast of other members, what they claim: salt', () => {
    const answer = ask(SALTIER);
    expect(answer.verdict).toBe('reached');
    for (const way of [answer.asItStands, answer.best, ...answer.others.map((other) => other.way)]) {
      const range = { ...make.aims[4]!, low: 1.9, high: 2.8 };
      const forecast = simulate({ plan: { ...planned(way), make: { ...make, aims: [range] } }, seed: OTHER_SEED });
      const [found] = forecast.aims;
      expect(Math.abs((found?.probability ?? Number.NaN) - way.probability)).toBeLessThan(tolerance(way.probability));
      expect(Math.abs((found?.spread.p50 ?? Number.NaN) - (way.aims[0]?.spread.p50 ?? 0))).toBeLessThan(0.05);
    }
  });

  it('bring what they claim: weight by the milk, an end and salt together by three inputs', () => {
    const figures = (way: Way): { kg: number; salt: number; end: number }[] => {
      const { course, ensemble } = membersOf({ plan: planned(way), seed: OTHER_SEED });
      const last = course.steps.length - 1;
      return ensemble.results.map((run) => ({ kg: run.figures[FIGURE_AT.cheeseKg] ?? Number.NaN, salt: run.figures[FIGURE_AT.saltInMoisturePercent] ?? Number.NaN, end: run.endMin[last] ?? Number.NaN })); // prettier-ignore
    };
    const share = (way: Way, isMet: (one: ReturnType<typeof figures>[number]) => boolean): number => figures(way).filter(isMet).length / 500; // prettier-ignore
    const weight = ask(LESS);
    expect(weight.verdict).toBe('reached');
    expect(Math.abs(share(weight.best, ({ kg }) => kg >= 1 && kg <= 1.5) - weight.best.probability)).toBeLessThan(tolerance(0.8)); // prettier-ignore
    const three = ask(SALTIER_SOON);
    expect(three.verdict).toBe('reached');
    for (const way of [three.best, ...three.others.map((other) => other.way)]) {
      const real = share(way, ({ end, salt }) => end <= 480 && salt >= 1.9 && salt <= 2.8);
      expect(Math.abs(real - way.probability)).toBeLessThan(tolerance(0.7));
    }
  });

  it('change more for more', () => {
    const much: Question = { ...SALTIER, aims: [{ quantity: 'saltInMoisturePercent', low: 2.2, high: 9 }] };
    const minutes = (question: Question): number => settingOf(ask(question).best, 'brine-minutes')?.value ?? Number.NaN;
    expect(ask(much).best.probability).toBeGreaterThanOrEqual(0.79);
    expect(minutes(much)).toBeGreaterThan(minutes(SALTIER));
  });

  it('change nothing where the make as it stands will do, and only what is needed otherwise', () => {
    const easy = ask({ aims: [{ quantity: 'cheeseKg', low: 1, high: 3 }], free: [{ id: 'milk' }] });
    expect(easy.verdict).toBe('as-it-stands');
    expect(changes(easy.best)).toEqual([]);
    expect(easy.best.answers).toEqual(answers);
    const both = ask({ ...LESS, free: [{ id: 'milk' }, { id: 'brine-minutes' }] });
    expect([both.verdict, changes(both.best)]).toEqual(['reached', ['milk']]);
  });

  it('stand on what can be set, inside their bounds', () => {
    const { best } = ask(SALTIER_SOON);
    for (const { id, value, low, high } of best.settings) {
      expect(value).toBeGreaterThanOrEqual(low);
      expect(value).toBeLessThanOrEqual(high);
      if (id === 'rest-warmth') expect((value * 2) % 1).toBeCloseTo(0, 6);
    }
  });

  it('start earlier by just as much as the end must be earlier', () => {
    const answer = ask({ aims: [{ quantity: 'endMin', low: Number.NEGATIVE_INFINITY, high: 420 }], free: [{ id: 'start' }] }); // prettier-ignore
    const { best, asItStands } = answer;
    expect(answer.verdict).toBe('reached');
    expect(best.endMin.p50).toBeCloseTo(asItStands.endMin.p50 + best.startShiftMin, 6);
    expect(Math.abs(best.startShiftMin % 5)).toBe(0);
    expect(best.answers).toEqual(answers);
  });

  it('are the same for the same seed', () => {
    expect(ask({ ...SALTIER })).toEqual(ask(SALTIER));
  });
});

describe('an aim that cannot be met', () => {
  it('is said to be so, with the most it comes to, the bound it stands at, and that nothing free moves it', () => {
    const dry = ask({ aims: [{ quantity: 'moisturePercent', low: 38, high: 44 }], free: [{ id: 'cube' }, { id: 'stir-minutes' }] }); // prettier-ignore
    expect([dry.verdict, dry.obstacle?.kind, dry.obstacle?.aim, dry.unmoved]).toEqual(['not-reached', 'out-of-reach', 0, [0]]); // prettier-ignore
    expect(dry.best.probability).toBeLessThan(0.1);
    expect(dry.obstacle?.probability).toBeLessThan(0.1);
    const salty = ask({ aims: [{ quantity: 'saltInMoisturePercent', low: 3.5, high: 6 }], free: [{ id: 'brine-minutes', low: 20, high: 90 }] }); // prettier-ignore
    expect([salty.verdict, salty.unmoved]).toEqual(['not-reached', []]);
    expect(settingOf(salty.best, 'brine-minutes')).toMatchObject({ value: 90, atBound: 'high' });
  });

  it('is told apart from two aims that each could be met, but not together', () => {
    const answer = ask({
      aims: [{ quantity: 'saltInMoisturePercent', low: 1.2, high: 1.8 }, { quantity: 'saltPercent', low: 1.15, high: 2 }],
      free: [{ id: 'brine-minutes' }],
    }); // prettier-ignore
    expect([answer.verdict, answer.obstacle?.kind]).toEqual(['not-reached', 'against-the-others']);
    expect(answer.obstacle?.probability).toBeGreaterThan(0.75);
    expect(answer.others.map((other) => other.kind)).toEqual(['for-this-aim', 'for-the-others']);
    const [forThis, forOthers] = answer.others.map((other) => other.way.aims[answer.obstacle?.aim ?? 0]);
    expect(forThis?.probability).toBeGreaterThan(forOthers?.probability ?? 1);
    expect(forOthers?.others).toBeGreaterThan(forThis?.others ?? 1);
  });
});

describe('a question', () => {
  it('asked under way frees only what is still open, and lets what is over be', () => {
    const history = underWay({ nowMin: 260, ended: TO_DRAINED_REST, running: 'rest-drained' });
    const answer = ask({ ...SALTIER }, { history });
    expect(answer.verdict).toBe('reached');
    expect(changes(answer.best)).toEqual(['brine-minutes']);
    expect(answer.best.endMin.p5).toBeGreaterThan(260);
    const late = (): Answer => ask({ ...SALTIER, free: [{ id: 'cube' }] }, { history });
    expect(late).toThrow(/free\[0\].id "cube" does not fit: expected rest-warmth[\s\S]*decided already/);
  });

  it('that cannot be meant names everything wrong with it', () => {
    const wrong = (question: Question): readonly string[] => {
      try {
        solve({ plan: planFor(), answers, question });
      } catch (error) {
        if (error instanceof InputError) return error.problems.map(({ field }) => field);
        throw error;
      }
      return [];
    };
    expect(wrong({ aims: [], free: [] })).toEqual(['aims', 'free']);
    expect(
      wrong({
        aims: [{ quantity: 'saltPercent', low: 2, high: 1 }, { quantity: 'pH', low: 5, high: 5.2, stepId: 'nowhere' }],
        free: [{ id: 'cube', low: 2, high: 10 }, { id: 'cube' }, { id: 'moon' }],
        probability: 1,
      }),
    ).toEqual(['probability', 'aims[0]', 'aims[1].stepId', 'free[0]', 'free[1].id', 'free[2].id']); // prettier-ignore
  });
});
