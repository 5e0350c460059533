import { describe, expect, it } from 'vitest';
import { makeNamed, MAKE_IDS } from '../../tests/makes.ts';
import { simulate } from '../forecast/simulate.ts';
import type { Make } from '../make/make.ts';
import { planMake } from '../make/planning.ts';
import type { Step } from '../make/step.ts';
import { forecastChecks, readingChecks, type MakeCheck } from './make-checks.ts';

const ball = makeNamed('stretched-ball');
const withStep = (id: string, change: (step: Step) => Step): Make => ({ ...ball, steps: ball.steps.map((step) => (step.id === id ? change(step) : step)) }); // prettier-ignore
const foreseen = (make: Make): MakeCheck[] => {
  const plan = planMake({ make, answers: { milk: { volumeL: 12 } } });
  return forecastChecks({ plan, forecast: simulate({ plan, members: 60 }) });
};
const codes = (checks: readonly MakeCheck[]): string[] => checks.map(({ code }) => code);

describe('a make that is well written', () => {
  it.each(MAKE_IDS)('is doubted nowhere: %s', (id) => {
    expect(readingChecks(makeNamed(id))).toEqual([]);
    expect(foreseen(makeNamed(id))).toEqual([]);
  });
});

describe('a make that is read', () => {
  it('is doubted where it waits for acid that nothing makes', () => {
    const plain: Make = { ...ball, steps: ball.steps.filter(({ set }) => set.ingredient !== 'culture') };
    expect(readingChecks(plain)[0]).toMatchObject({ code: 'no-acid', step: 'Rest in the whey', at: 5.9 });
  });

  it('is doubted where hands go into hot water and nobody says so', () => {
    const bare: Make = { ...ball, steps: ball.steps.map((step) => ({ ...step, cautions: [] })) };
    const missing = readingChecks(bare).flatMap((check) => (check.code === 'caution-missing' ? [check.caution] : []));
    expect(missing).toEqual(['stretch-hands', 'hot-water-people', 'acid-slow', 'brine-warm-weak']);
  });

  it('is doubted where raw milk is allowed without a word about it', () => {
    const unsaid: Make = { ...ball, milk: { ...ball.milk, deviations: ball.milk.deviations.filter(({ when }) => when !== 'raw') } }; // prettier-ignore
    expect(codes(readingChecks(unsaid))).toEqual(['raw-unsaid']);
  });
});

describe('a make that is forecast', () => {
  it('is doubted where its rest is said to take ten minutes and takes an hour', () => {
    const hurried = withStep('rest-drained', (step) => ({ ...step, until: { ...step.until, of: step.until.of.map((end) => (end.kind === 'time' ? { ...end, minutes: { value: 10, source: 'common practice' } } : end)) } })); // prettier-ignore
    const [check] = foreseen(hurried).filter(({ code }) => code === 'time-contradicted');
    expect(check).toMatchObject({ code: 'time-contradicted', step: 'Keep warm and turn', minutes: 10 });
  });

  it('is doubted where it wants a pH in the vat that its culture does not reach by then', () => {
    const sour = withStep('rest-in-whey', (step) => ({ ...step, until: { join: 'first', of: step.until.of.map((end) => (end.kind === 'pH' ? { ...end, at: { value: 4.3, source: 'common practice' } } : end)) } })); // prettier-ignore
    const [check] = foreseen(sour).filter(({ code }) => code === 'pH-not-reached');
    expect(check).toMatchObject({ code: 'pH-not-reached', step: 'Rest in the whey', at: 4.3 });
  });

  it('is doubted where its aim is another cheese', () => {
    const dry: Make = { ...ball, aims: ball.aims.map((aim) => (aim.quantity === 'moisturePercent' ? { ...aim, low: 30, aim: 32, high: 35 } : aim)) }; // prettier-ignore
    expect(foreseen(dry)).toContainEqual(expect.objectContaining({ code: 'aim-missed', quantity: 'moisturePercent' }));
  });
});
