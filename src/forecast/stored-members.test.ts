import { describe, expect, it } from 'vitest';
import { planFor, TO_DRAINED_REST, TO_SETTING, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import type { History } from '../make/history.ts';
import { weightedQuantiles } from '../numbers/stats.ts';
import type { MemberRun } from './run.ts';
import { hasEnough, storeMembers, weighedBy, withNotes } from './stored-members.ts';

const plan = planFor();
const MEMBERS = 200;

const resting = underWay({ nowMin: 200, ended: TO_WHEY_REST, running: 'rest-in-whey' });
const setting = underWay({ nowMin: 97, ended: TO_SETTING, running: 'set' });
const drained = underWay({ nowMin: 260, ended: TO_DRAINED_REST, running: 'rest-drained' });

/** When the curd is ready to stretch, over weighed members: 5, 50 and 95 %. */
function readyMin(runs: readonly MemberRun[], weights: ArrayLike<number>): number[] {
  const at = plan.steps.findIndex((step) => step.id === 'rest-drained');
  return weightedQuantiles(runs.map((run) => run.leftMin[at] ?? Number.NaN), weights, [0.05, 0.5, 0.95]); // prettier-ignore
}

/** Each: what had happened, and what was noted since. */
const NOTED: readonly (readonly [name: string, before: History, now: History])[] = [
  ['a pH of the milk', setting, { ...setting, nowMin: 99, readings: [{ quantity: 'pH', value: 6.55, sample: 'milk', elapsedMin: 98 }] }],
  ['a pH of the whey', resting, { ...resting, nowMin: 205, readings: [{ quantity: 'pH', value: 6.3, sample: 'whey', elapsedMin: 204 }] }],
  ['curd that does not break clean', setting, { ...setting, nowMin: 108, judgements: [{ judgement: 'cleanBreak', grade: 'not-yet', elapsedMin: 107 }] }],
  ['curd gripped in the hand', resting, { ...resting, nowMin: 205, judgements: [{ judgement: 'grip', grade: 'holds-loosely', elapsedMin: 204 }] }],
  ['a piece that tears short', drained, { ...drained, nowMin: 266, judgements: [{ judgement: 'stretch', grade: 'tears-short', elapsedMin: 265 }] }],
]; // prettier-ignore

describe('members that are kept beside their forecast', () => {
  it.each(NOTED)('are weighed by %s as makes run anew are', (_, before, now) => {
    const weighed = weighedBy(storeMembers({ plan, history: before, members: MEMBERS }), now);
    const anew = storeMembers({ plan, history: now, members: MEMBERS });
    if (weighed === null) throw new Error('not weighed');
    let furthest = 0;
    weighed.ensemble.fromPrior.forEach((run, i) => {
      const ours = run.logLikelihoods[0] ?? Number.NaN;
      const theirs = anew.ensemble.fromPrior[i]?.logLikelihoods[0] ?? Number.NaN;
      furthest = Math.max(furthest, Math.abs(ours - theirs));
    });
    // A fifth of a unit of log-likelihood on the worst of two hundred: it lies between two points of the trace.
    expect(furthest).toBeLessThan(0.25);
    expect(weighed.ensemble.fromPrior).toHaveLength(MEMBERS);
  });

  it.each(NOTED)('say with %s what other members run anew say, within their sampling error', (_, before, now) => {
    const weighed = weighedBy(storeMembers({ plan, history: before, members: 500 }), now);
    const anew = storeMembers({ plan, history: now, members: 1000, seed: 5 }).ensemble.fromPrior;
    if (weighed === null) throw new Error('not weighed');
    const { results, weights } = weighed.ensemble;
    const logs = anew.map((run) => run.logLikelihoods[0] ?? Number.NaN);
    const most = Math.max(...logs);
    const ours = readyMin(results, weights);
    const theirs = readyMin(anew, logs.map((log) => Math.exp(log - most))); // prettier-ignore
    const width = (theirs[2] ?? 0) - (theirs[0] ?? 0);
    // A hundred effective members at least on either side: the middle to a tenth of the band, its ends to a fifth.
    expect(Math.abs((ours[1] ?? 0) - (theirs[1] ?? 0))).toBeLessThan(0.15 * width);
    expect(Math.abs((ours[0] ?? 0) - (theirs[0] ?? 0))).toBeLessThan(0.25 * width);
    expect(Math.abs((ours[2] ?? 0) - (theirs[2] ?? 0))).toBeLessThan(0.25 * width);
  });

  it('follow one note after another, and are drawn anew when too few of them still fit', () => {
    let stored = storeMembers({ plan, history: resting, members: 600 });
    const effective: number[] = [];
    let history = resting;
    for (const [elapsedMin, value] of [
      [202, 6.28],
      [208, 6.24],
      [214, 6.19],
      [220, 6.13],
    ] as const) {
      // prettier-ignore
      const reading = { quantity: 'pH' as const, value, sample: 'whey' as const, elapsedMin };
      history = { ...history, nowMin: elapsedMin + 1, readings: [...history.readings, reading] };
      stored = withNotes(stored, history);
      effective.push(stored.ensemble.effectiveMembers);
      expect(stored.course.history.readings).toHaveLength(history.readings.length);
    }
    expect(Math.min(...effective)).toBeGreaterThan(100);
    expect(hasEnough(stored) || stored.ensemble.method !== 'weighed').toBe(true);
  });

  it('are run again where a note moves the vat, a step ends or a note is taken back', () => {
    const stored = storeMembers({ plan, history: drained, members: 60 });
    const noted = (readings: History['readings']): History => ({ ...drained, nowMin: 262, readings });
    expect(weighedBy(stored, noted([{ quantity: 'pH', value: 5.6, sample: 'curd', elapsedMin: 261 }]))).not.toBeNull();
    expect(weighedBy(stored, noted([{ quantity: 'massKg', value: 2, sample: 'curd', elapsedMin: 261 }]))).toBeNull();
    expect(
      weighedBy(stored, noted([{ quantity: 'temperatureC', value: 37, sample: 'curd', elapsedMin: 261 }])),
    ).toBeNull();
    const ended = { ...drained, steps: drained.steps.map((step) => (step.stepId === 'rest-drained' ? { ...step, endedMin: 262 } : step)) }; // prettier-ignore
    expect(weighedBy(stored, ended)).toBeNull();
    const once = storeMembers({ plan, history: noted([{ quantity: 'pH', value: 5.6, sample: 'curd', elapsedMin: 261 }]), members: 60 }); // prettier-ignore
    expect(weighedBy(once, drained)).toBeNull();
  });

  it('have every make run again that a pH of its drained curd would move', () => {
    const now: History = { ...drained, nowMin: 262, readings: [{ quantity: 'pH', value: 5.6, sample: 'curd', elapsedMin: 261 }] }; // prettier-ignore
    const weighed = weighedBy(storeMembers({ plan, history: drained, members: 60 }), now);
    const anew = storeMembers({ plan, history: now, members: 60 });
    weighed?.ensemble.fromPrior.forEach((run, i) => {
      expect(run.endPH).toEqual(anew.ensemble.fromPrior[i]?.endPH);
    });
    expect(weighed).not.toBeNull();
  });
});
