import { describe, expect, it } from 'vitest';
import { planFor } from '../../../../tests/makes.ts';
import type { Answer, Way } from '../../../forecast/question.ts';
import { simulate } from '../../../forecast/simulate.ts';
import { adjustablesOf } from '../../../make/adjustable.ts';
import { firstDraft } from '../plan/draft.ts';
import { planFor as planOf } from '../plan/plan-for.ts';
import { readRow, usualRow, type AimRow } from './aim-rows.ts';
import { withoutChange, withWay } from './take-way.ts';
import { NOTHING_SOLVED, solvingAfter } from './use-solve.ts';
import { offered, worthFreeing } from './worth-freeing.ts';

const plan = planFor();
const zeroAt = new Date(2026, 2, 4, 9, 0).getTime();
const read = (row: AimRow, units: 'metric' | 'us' = 'metric') => readRow({ row, zeroAt, units });
const usual = (quantity: AimRow['quantity'], units: 'metric' | 'us' = 'metric'): AimRow =>
  usualRow({ quantity, make: plan.make, forecast: simulate({ plan, members: 60 }), endAt: zeroAt + 400 * 60_000, units }); // prettier-ignore

describe('what must come out, as it is typed', () => {
  it("begins with the make's own range, or with what is foreseen", () => {
    expect(usual('saltInMoisturePercent')).toEqual({ quantity: 'saltInMoisturePercent', low: '1.2', high: '2.6' });
    expect(usual('endMin')).toEqual({ quantity: 'endMin', low: '', high: '15:30' });
    const [kilograms, pounds] = [Number(usual('cheeseKg').low), Number(usual('cheeseKg', 'us').low)];
    expect(pounds / kilograms).toBeGreaterThan(2);
    expect(pounds / kilograms).toBeLessThan(2.4);
  });

  it('is read in the units of the reader, with an end left open, and as the next such time after the start', () => {
    expect(read({ quantity: 'moisturePercent', low: '', high: '55,5' })).toEqual({ wanted: { quantity: 'moisturePercent', low: Number.NEGATIVE_INFINITY, high: 55.5 } }); // prettier-ignore
    expect(read({ quantity: 'cheeseKg', low: '2.2', high: '' }, 'us')).toMatchObject({ wanted: { low: expect.closeTo(0.998, 3) as number } }); // prettier-ignore
    expect(read({ quantity: 'endMin', low: '', high: '16:00' })).toMatchObject({ wanted: { high: 420 } });
    expect(read({ quantity: 'endMin', low: '', high: '01:00' })).toMatchObject({ wanted: { high: 960 } });
  });

  it('says which end cannot be read', () => {
    expect(read({ quantity: 'saltPercent', low: 'a lot', high: '2' })).toEqual({ wrong: 'low' });
    expect(read({ quantity: 'saltPercent', low: '1', high: 'x' })).toEqual({ wrong: 'high' });
    expect(read({ quantity: 'saltPercent', low: '2', high: '1' })).toEqual({ wrong: 'range' });
    expect(read({ quantity: 'saltPercent', low: '', high: '' })).toEqual({ wrong: 'range' });
  });
});

describe('what may change', () => {
  const movers = ['brine-minutes', 'piece', 'cube', 'milk'].map((id, index) => ({ id, effect: [3, 0.4, 0.2, 0.01][index] ?? 0 })); // prettier-ignore

  it('is at first the one or two things that move the aim most', () => {
    expect(worthFreeing(movers)).toEqual(['brine-minutes', 'piece']);
    expect(worthFreeing(movers.slice(3))).toEqual(['milk']);
  });

  it('offers what moves it and what is chosen, and everything when asked', () => {
    const ids = (all: boolean): string[] => offered({ movers, chosen: ['milk'], all }).map(({ id }) => id);
    expect(ids(false)).toEqual(['brine-minutes', 'piece', 'cube', 'milk']);
    expect(offered({ movers, chosen: [], all: false }).map(({ id }) => id)).not.toContain('milk');
    expect(ids(true)).toHaveLength(4);
  });
});

describe('a way taken into the plan', () => {
  const draft = firstDraft({ today: '2026-03-04', makeId: plan.make.id, units: 'metric' });
  const setting = (id: string, value: number, isChanged = true) => ({ id, value, was: 1, isChanged, low: 0, high: 99, atBound: null }); // prettier-ignore
  const way = (settings: readonly ReturnType<typeof setting>[], startShiftMin = 0): Way => ({ settings, startShiftMin }) as unknown as Way; // prettier-ignore
  const take = (taken: Way, at: number | null = null) => withWay({ draft, way: taken, adjustables: adjustablesOf(plan), units: 'metric', zeroAt: at }); // prettier-ignore

  it('puts changes of the make beside the answers, answers where they are asked for, and leaves the rest', () => {
    const next = take(way([setting('brine-minutes', 34), setting('culture-dose', 0.8), setting('milk', 9), setting('cube', 9, false)])); // prettier-ignore
    expect(next.changes).toEqual({ 'brine-minutes': 34 });
    expect(next.facts).toMatchObject({ 'culture.packetFraction': '0.8', 'milk.volumeL': '9' });
    expect(next.clock).toEqual(draft.clock);
    const planned = planOf({ draft: next, make: plan.make, units: 'metric' });
    expect(planned.plan?.changes).toEqual({ 'brine-minutes': 34 });
    expect(withoutChange(next, 'brine-minutes').changes).toEqual({});
  });

  it('keeps the start that an aim of the clock was found for', () => {
    expect(take(way([setting('start', -30)], -30), zeroAt).clock).toEqual({ mode: 'start-at', time: '08:30', day: '2026-03-04' }); // prettier-ignore
  });

  it('means nothing to another make', () => {
    const foreign = { ...draft, changes: { 'moon-minutes': 3 } };
    expect(planOf({ draft: foreign, make: plan.make, units: 'metric' }).plan?.changes).toBeUndefined();
  });
});

describe('the answer on screen', () => {
  it('is kept, as an older one, until the new one is there', () => {
    const answer = { verdict: 'reached' } as Answer;
    const question = { aims: [], free: [] };
    const first = solvingAfter(solvingAfter(NOTHING_SOLVED, { asked: 1 }), { reply: { number: 1, question, answer } });
    const asked = solvingAfter(first, { asked: 2 });
    expect([asked.solved?.number, asked.asked]).toEqual([1, 2]);
    expect(solvingAfter(asked, { reply: { number: 1, failed: 'late' } })).toBe(asked);
    expect(solvingAfter(asked, { reply: { number: 2, question, answer } }).solved?.number).toBe(2);
  });
});
