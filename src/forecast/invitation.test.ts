import { describe, expect, it } from 'vitest';
import { planFor, TO_DRAINED_REST, TO_SETTING, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import type { History } from '../make/history.ts';
import type { Forecast } from './forecast.ts';
import { simulate } from './simulate.ts';

const withMeter = planFor({ answers: { instruments: { pHMeter: true } } });
const without = planFor();
const forecast = (history: History, plan = withMeter): Forecast => simulate({ plan, history, members: 300 });
const drained = (nowMin: number, told: Partial<History> = {}): History => ({
  ...underWay({ nowMin, ended: TO_DRAINED_REST, running: 'rest-drained' }),
  ...told,
});
const span = ({ steps }: Forecast): number => {
  const end = steps.find((step) => step.stepId === 'rest-drained')?.endMin;
  return (end?.p95 ?? 0) - (end?.p5 ?? 0);
};

describe('a reading is invited where it would change when a step is ended', () => {
  const unread = forecast(drained(262));

  it('a pH of the drained curd that nobody has read, from those who have a meter', () => {
    const { invitation } = unread;
    expect(invitation).toMatchObject({ stepId: 'rest-drained', quantity: 'pH', sample: 'curd' });
    expect(invitation?.thenMin).toBeLessThan(0.6 * (invitation?.spanMin ?? 0));
  });

  it('a stretched test piece from those who have none', () => {
    expect(forecast(drained(275), without).invitation).toMatchObject({ judgement: 'stretch' });
  });

  it('and does about what was promised, on average over the middle half of what may be read', () => {
    const { bands, gridMin, invitation } = unread;
    const at = gridMin.indexOf(260);
    const values = [bands.pH.p25[at], bands.pH.p50[at], bands.pH.p75[at]];
    const spans = values.map((value) =>
      span(
        forecast(drained(262, { readings: [{ quantity: 'pH', value: value ?? 0, sample: 'curd', elapsedMin: 261 }] })),
      ),
    );
    const mean = spans.reduce((sum, one) => sum + one, 0) / spans.length;
    expect(mean / (invitation?.thenMin ?? 0)).toBeGreaterThan(0.6);
    expect(mean / (invitation?.thenMin ?? 0)).toBeLessThan(1.6);
  });
});

describe('no reading is invited', () => {
  it('where it was just taken', () => {
    const readings: History['readings'] = [{ quantity: 'pH', value: 5.6, sample: 'curd', elapsedMin: 260 }];
    expect(forecast(drained(262, { readings })).invitation).toBeNull();
    const judgements: History['judgements'] = [{ judgement: 'stretch', grade: 'tears-short', elapsedMin: 260 }];
    expect(forecast(drained(264, { judgements }), without).invitation).toBeNull();
  });

  it('where the clock ends the step: healing, ripening, a rest without a meter', () => {
    const healing = underWay({ nowMin: 130, ended: TO_WHEY_REST.slice(0, 7), running: 'heal' });
    const ripening = underWay({ nowMin: 60, ended: TO_SETTING.slice(0, 2), running: 'ripen' });
    const resting = underWay({ nowMin: 200, ended: TO_WHEY_REST, running: 'rest-in-whey' });
    expect(forecast(healing).invitation).toBeNull();
    expect(forecast(ripening).invitation).toBeNull();
    expect(forecast(resting, without).invitation).toBeNull();
    expect(forecast(resting).invitation).toMatchObject({ quantity: 'pH', sample: 'whey' });
  });

  it('while the hands are busy beginning the step, nor of a make that nobody follows or has begun', () => {
    expect(forecast(drained(242.5)).invitation).toBeNull();
    expect(forecast({ ...drained(400), assumedFromMin: 243 }).invitation).toBeNull();
    expect(simulate({ plan: withMeter, members: 60 }).invitation).toBeNull();
  });
});
