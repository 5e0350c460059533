import { describe, expect, it } from 'vitest';
import { planFor, TO_DRAINED_REST, underWay } from '../../tests/makes.ts';
import { changedUnderWay } from '../make/under-way.ts';
import { simulate } from './simulate.ts';

const plan = planFor();
const history = underWay({ nowMin: 272, ended: TO_DRAINED_REST, running: 'rest-drained' });
const warmer = (atMin: number) =>
  simulate({
    plan: changedUnderWay({ before: plan, after: planFor({ answers: { changes: { 'rest-warmth': 42 } } }), steps: history.steps, atMin }), // prettier-ignore
    history,
    members: 60,
  });

describe('a rest held warmer from some minute on', () => {
  it('is as it was until then, and warmer after', () => {
    const kept = simulate({ plan, history, members: 60 });
    const changed = warmer(272);
    const at = (minute: number): number => changed.gridMin.indexOf(minute);
    expect(changed.bands.temperatureC.p50[at(265)]).toBe(kept.bands.temperatureC.p50[at(265)]);
    expect(changed.bands.pH.p50[at(265)]).toBe(kept.bands.pH.p50[at(265)]);
    expect(changed.bands.temperatureC.p50[at(300)]).toBeGreaterThan((kept.bands.temperatureC.p50[at(300)] ?? 0) + 1);
  });

  it('tells apart a change of now and one of half an hour ago', () => {
    const at = (forecast: ReturnType<typeof warmer>): number => forecast.bands.temperatureC.p50[forecast.gridMin.indexOf(265)] ?? Number.NaN; // prettier-ignore
    expect(at(warmer(243))).toBeGreaterThan(at(warmer(272)) + 1);
  });
});
