import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planFor, TO_DRAINED_REST, TO_WHEY_REST, underWay } from '../../tests/makes.ts';
import { leastHalfWidthMin, widened } from './bands.ts';
import type { Forecast } from './forecast.ts';
import { simulate } from './simulate.ts';

const width = (spread: { p5: number; p95: number }): number => spread.p95 - spread.p5;

const base = simulate({ plan: planFor() });

describe('the floors on honesty (acidification notes 5.5)', () => {
  const floorHolds = (forecast: Forecast): void => {
    let looked = 0;
    for (const entry of forecast.steps) {
      const isWait = entry.stepId.startsWith('rest') || entry.phase === 'after';
      if (entry.state === 'done' || !isWait || !Number.isFinite(entry.endMin.p95)) continue;
      looked++;
      const remainingMin = entry.endMin.p50 - forecast.nowMin;
      const least = leastHalfWidthMin({ remainingMin, phase: entry.phase });
      expect(entry.endMin.p95 - entry.endMin.p50).toBeGreaterThan(least - 0.5);
      const earliest = Math.max(entry.endMin.p50 - least, forecast.nowMin);
      expect(entry.endMin.p5).toBeLessThan(earliest + 0.5);
    }
    expect(looked).toBeGreaterThan(2);
  };

  it('hold before the make, and after many readings that agree to the hundredth', () => {
    floorHolds(base);
    const many = [150, 165, 185, 200].map((elapsedMin) => ({
      quantity: 'pH' as const,
      value: 6.3,
      sample: 'whey' as const,
      elapsedMin,
    }));
    floorHolds(
      simulate({
        plan: planFor(),
        history: underWay({ nowMin: 205, ended: TO_WHEY_REST, running: 'rest-in-whey', readings: many }),
      }),
    );
    const curd = [250, 255, 260].map((elapsedMin) => ({
      quantity: 'pH' as const,
      value: 5.6,
      sample: 'curd' as const,
      elapsedMin,
    }));
    floorHolds(
      simulate({
        plan: planFor(),
        history: underWay({ nowMin: 262, ended: TO_DRAINED_REST, running: 'rest-drained', readings: curd }),
      }),
    );
  });

  it('give drained curd at least 0.20 pH of model error until it has been read', () => {
    const drained = underWay({ nowMin: 262, ended: TO_DRAINED_REST, running: 'rest-drained' });
    const at = Math.round(260 / 5);
    const unread = simulate({ plan: planFor(), history: drained }).bands.pH;
    // 90 % of a normal error of 0.20 is 0.33 either way.
    expect((unread.p95[at] ?? 0) - (unread.p5[at] ?? 0)).toBeGreaterThan(2 * 0.33);
    const read = simulate({
      plan: planFor(),
      history: { ...drained, readings: [{ quantity: 'pH', value: 5.7, sample: 'curd', elapsedMin: 258 }] },
    }).bands.pH;
    const widthAt = (index: number): number => (read.p95[index] ?? 0) - (read.p5[index] ?? 0);
    expect(widthAt(at)).toBeLessThan(2 * 0.15);
    expect(widthAt(at)).toBeGreaterThan(2 * 1.645 * 0.05 * 0.7);
  });

  it('show curd moisture within eight points either way at best, until the curd is weighed', () => {
    const { moisturePercent } = base.outcome;
    expect(width(moisturePercent)).toBeGreaterThan(2 * 7);
  });

  it('widen any spread that is too narrow, and leave a wide one alone', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 400, noNaN: true }), { minLength: 40, maxLength: 200 }),
        fc.double({ min: 6, max: 60, noNaN: true }),
        (values, least) => {
          const sorted = widened({
            values: Float64Array.from(values).sort(),
            leastHalfWidthMin: least,
            notBeforeMin: -1e9,
          });
          for (let i = 1; i < sorted.length; i++)
            expect((sorted[i] ?? 0) + 1e-9).toBeGreaterThanOrEqual(sorted[i - 1] ?? 0);
          expect(sorted).toHaveLength(values.length);
        },
      ),
      { seed: 20261125, numRuns: 200 },
    );
  });
});
