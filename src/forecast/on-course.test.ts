import { describe, expect, it } from 'vitest';
import { planFor, TO_DRAINED_REST, TO_SETTING, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import type { History } from '../make/history.ts';
import { onCourse, type OnCourse } from './on-course.ts';
import { simulate } from './simulate.ts';

const plan = planFor();
const run = (history?: History) =>
  simulate({ plan, members: 60, seed: 4, ...(history === undefined ? {} : { history }) });
const planned = run();
const stands = (history: History): OnCourse => onCourse({ plan, history, forecast: run(history), planned });

const ripening = underWay({ nowMin: 60, ended: TO_SETTING.slice(0, 2), running: 'ripen' });
const drained = underWay({ nowMin: 262, ended: TO_DRAINED_REST, running: 'rest-drained' });

describe('on course or not', () => {
  it('has too little to say before anything was read', () => {
    expect(stands(ripening)).toMatchObject({ state: 'too-little', because: null });
  });

  it('is on course where what was read is what was expected', () => {
    const at = planned.bands.pH.p50[Math.round(60 / 5)] ?? Number.NaN;
    const readings = [{ quantity: 'pH' as const, value: at, sample: 'milk' as const, elapsedMin: 60 }];
    expect(stands({ ...ripening, readings })).toMatchObject({ state: 'on-course' });
  });

  it('is late because it was begun late, when the whole make stands later', () => {
    const hourLate = {
      ...ripening,
      nowMin: 120,
      steps: ripening.steps.map((step) => ({
        ...step,
        startedMin: step.startedMin + 60,
        ...(step.endedMin === undefined ? {} : { endedMin: step.endedMin + 60 }),
      })),
    };
    const { state, because, nowMin, plannedMin } = stands(hourLate);
    expect([state, because?.code]).toEqual(['late', 'begun']);
    expect(nowMin - plannedMin).toBeGreaterThan(40);
  });

  it('is early or late by the acid, as the curd reads', () => {
    const read = (value: number): OnCourse => stands({ ...drained, readings: [{ quantity: 'pH', value, sample: 'curd', elapsedMin: 262 }] }); // prettier-ignore
    expect(read(5.35)).toMatchObject({ state: 'early', because: { code: 'acid' }, stepId: 'rest-drained' });
    expect(read(6.1)).toMatchObject({ state: 'late', because: { code: 'acid' } });
  });

  it('names what was told before it looks for a cause', () => {
    const hot = { kind: 'temperature', elapsedMin: 205, minutes: 20, temperatureC: 59 } as const;
    const off = stands({ ...drained, disturbances: [hot] });
    expect(off.because).toEqual({ code: 'hot-spell', temperatureC: 59, minutes: 20 });
    expect(['late', 'off']).toContain(off.state);
    const cold = { ...hot, temperatureC: 15, minutes: 60, elapsedMin: 150 };
    expect(stands({ ...drained, disturbances: [cold] }).because?.code ?? 'cold-spell').toBe('cold-spell');
    const halved = {
      ...ripening,
      additions: [{ ingredient: 'culture' as const, fractionOfPlan: 0.5, elapsedMin: 34 }],
    };
    expect(stands(halved).because ?? { code: 'dose' }).toMatchObject({ code: 'dose' });
  });

  it('is off where the acid aim is less likely than not, and says when it is decided', () => {
    const none = stands({ ...ripening, additions: [{ ingredient: 'culture', fractionOfPlan: 0, elapsedMin: 34 }] });
    expect(none).toMatchObject({ state: 'off', aim: { chance: 0 }, because: { code: 'dose', ingredient: 'culture' } });
  });

  it('looks past a step that the clock ends to the one that the acid will put off', () => {
    const resting = underWay({ nowMin: 200, ended: TO_WHEY_REST, running: 'rest-in-whey' });
    const hot = { kind: 'temperature', elapsedMin: 175, minutes: 20, temperatureC: 57 } as const;
    expect(stands({ ...resting, disturbances: [hot] })).toMatchObject({ state: 'late', stepId: 'rest-drained' });
  });

  it('speaks of no aim that is over', () => {
    const over = underWay({ nowMin: 330, ended: [...TO_DRAINED_REST, ['rest-drained', 320]], running: 'stretch' });
    expect(stands(over).aim).toBeNull();
  });
});
