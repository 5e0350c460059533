import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Forecast } from '../forecast/forecast.ts';
import { simulate } from '../forecast/simulate.ts';
import { parseMake } from '../make/make.ts';
import { planMake } from '../make/planning.ts';
import { finishOf, keptBy, preparationsOf, scheduleOf } from './schedule.ts';

const make = parseMake(
  JSON.parse(readFileSync(new URL('../../makes/stretched-ball.json', import.meta.url), 'utf8')) as unknown,
);
const plan = planMake({ make, answers: { milk: { volumeL: 12 } } });
const forecast = simulate({ plan, members: 100, seed: 3 });
const FIVE = Date.UTC(2026, 2, 2, 17, 0);
const MINUTE_MS = 60_000;

/** The same forecast with the last `count` of twenty makes never ending. */
function withStalled(count: number): Forecast {
  return {
    ...forecast,
    steps: forecast.steps.map((step) => ({
      ...step,
      endDots: step.endDots.map((dot, index) => (index >= 20 - count ? Number.POSITIVE_INFINITY : dot)),
      endMin: { ...step.endMin, ...(count >= 10 ? { p50: Number.POSITIVE_INFINITY } : {}), p95: Number.POSITIVE_INFINITY },
    })),
  }; // prettier-ignore
}

describe('a plan on the clock', () => {
  it('worked back from five, eighteen makes of twenty are done by five and the start is on a five minutes', () => {
    const schedule = scheduleOf({
      plan,
      forecast,
      wish: { mode: 'done-by', at: FIVE },
      now: FIVE - 20 * 60 * MINUTE_MS,
    });
    expect(schedule?.endLateAt).toBeLessThanOrEqual(FIVE);
    expect(schedule?.endLateAt).toBeGreaterThan(FIVE - 5 * MINUTE_MS);
    expect((schedule?.zeroAt ?? 1) % (5 * MINUTE_MS)).toBe(0);
    expect([schedule?.keptIn20, schedule?.tooLate]).toEqual([18, null]);
  });

  it('started at a time, it starts at that time', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2_000_000 }), (minute) => {
        const at = minute * MINUTE_MS;
        const schedule = scheduleOf({ plan, forecast, wish: { mode: 'start-at', at }, now: 0 });
        expect(schedule?.zeroAt).toBe(at);
        expect(schedule?.endLateAt).toBeGreaterThanOrEqual(schedule?.endAt ?? Number.POSITIVE_INFINITY);
      }),
      { seed: 20261125, numRuns: 50 },
    );
  });

  it('says what starting now would bring when the start has passed', () => {
    const now = FIVE - 60 * MINUTE_MS;
    const schedule = scheduleOf({ plan, forecast, wish: { mode: 'done-by', at: FIVE }, now });
    expect(schedule?.tooLate?.earliestEndAt).toBeGreaterThan(FIVE);
  });

  it('counts on fewer makes where some never end, and gives no clock where half of them do not', () => {
    const wish = { mode: 'done-by', at: FIVE } as const;
    expect(scheduleOf({ plan, forecast: withStalled(5), wish, now: 0 })?.keptIn20).toBe(14);
    expect(scheduleOf({ plan, forecast: withStalled(12), wish, now: 0 })).toBeNull();
  });
});

describe('the finish in words', () => {
  /** A make whose last step ends evenly between six and ten hours after the start. */
  const even: Forecast = {
    ...forecast,
    steps: forecast.steps.map((step) => ({
      ...step,
      startMin: { p5: 300, p25: 300, p50: 300, p75: 300, p95: 300 },
      endDots: Array.from({ length: 20 }, (_, index) => 360 + 12 * (index + 0.5)),
      endMin: { p5: 372, p25: 420, p50: 480, p75: 540, p95: 588 },
    })),
  };
  const schedule = scheduleOf({ plan, forecast: even, wish: { mode: 'start-at', at: 0 }, now: 0 })!;

  it('has eighteen in twenty done when nine tenths are, and one in twenty later than the last figure', () => {
    expect((schedule.endLateAt - schedule.zeroAt) / MINUTE_MS).toBe(360 + 0.9 * 240);
    const finish = finishOf({ schedule, forecast: even });
    const minutes = [finish.earlyAt, finish.aboutAt, finish.keptAt, finish.lateAt ?? 0].map((at) => at / MINUTE_MS);
    expect(minutes).toEqual([370, 480, 580, 590]); // 372, 480, 576 and 588, outward to five minutes
  });

  it('has no latest figure where one make in twenty is not seen to end', () => {
    const open = { ...even, steps: even.steps.map((step) => ({ ...step, endMin: { ...step.endMin, p95: Number.POSITIVE_INFINITY } })) }; // prettier-ignore
    expect(finishOf({ schedule, forecast: open }).lateAt).toBeNull();
  });

  it('counts no make that may never end', () => {
    const dots = [
      ...Array.from({ length: 15 }, (_, index) => index),
      ...Array<number>(5).fill(Number.POSITIVE_INFINITY),
    ];
    expect([14, 15].map((count) => keptBy(dots, count))).toEqual([13.5, Number.POSITIVE_INFINITY]);
    expect(keptBy([1, 2], 2)).toBe(2);
  });
});

describe('preparations', () => {
  const rows = preparationsOf({ plan, forecast });
  const named = (id: string) => rows.find((row) => row.preparation.id === id);

  it('leave brine and ice to the evening before', () => {
    expect(rows.slice(0, 2).map((row) => [row.preparation.id, row.isEveningBefore])).toEqual([['ice', true], ['brine', true]]); // prettier-ignore
  });

  it('put the stretching water on one burner-time before the first test piece', () => {
    const look = forecast.steps.find((step) => step.stepId === 'rest-drained')?.looksMin[0] ?? Number.NaN;
    const burner = forecast.needs.stretchWaterHeatMin?.p75 ?? Number.NaN;
    const water = named('stretch-water')?.startMin ?? Number.NaN;
    expect(water).toBeLessThanOrEqual(look - burner);
    expect(water).toBeGreaterThan(look - burner - 5);
  });

  it('are begun early enough for the earliest of makes', () => {
    for (const { preparation, step, startMin, isEveningBefore } of rows) {
      if (isEveningBefore || preparation.amount === 'stretch-water') continue;
      const early = forecast.steps.find((each) => each.stepId === step.id)?.startMin.p5 ?? Number.NaN;
      expect(startMin, preparation.id).toBeLessThanOrEqual(early - preparation.leadMinutes.value);
    }
  });
});
