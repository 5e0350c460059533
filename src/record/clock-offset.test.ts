import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { closerOffset, isClockOff, measuredOffset } from './clock-offset.ts';
import { clockAfter, nextClock } from './clock.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const YEAR = 365.25 * 24 * HOUR;
const way = fc.integer({ min: 0, max: 20_000 });

describe('how far a tablet by the vat is from the server', () => {
  it('is within its plus or minus, however long question and answer were on their way', () => {
    fc.assert(
      fc.property(fc.integer({ min: -9 * HOUR, max: 9 * HOUR }), way, way, (offsetMs, there, back) => {
        const askedAt = 1_790_000_000_000;
        const measured = measuredOffset({
          askedAt,
          serverAt: askedAt + there + offsetMs,
          answeredAt: askedAt + there + back,
        });
        // Half a millisecond is rounding.
        expect(Math.abs((measured?.offsetMs ?? NaN) - offsetMs)).toBeLessThanOrEqual(
          (measured?.plusMinusMs ?? 0) + 0.5,
        );
      }),
      { seed: 20261129, numRuns: 300 },
    );
  });

  it('is not measured by a clock that was set back while the answer was on its way', () => {
    expect(measuredOffset({ askedAt: 5000, serverAt: 9000, answeredAt: 4000 })).toBeNull();
  });

  it('stays the quick answer’s while slow ones agree with it, and follows the clock when somebody sets it', () => {
    const quick = { offsetMs: 3 * HOUR, plusMinusMs: 10, measuredAt: 0 };
    const slow = { offsetMs: 3 * HOUR - 400, plusMinusMs: 900, measuredAt: 30_000 };
    expect(closerOffset(null, slow)).toBe(slow);
    expect(closerOffset(quick, slow)).toBe(quick);
    const set = { offsetMs: 40, plusMinusMs: 900, measuredAt: 3 * HOUR };
    expect(closerOffset(quick, set)).toBe(set);
    // Ten hours on, a quartz may have drifted by more than the slow answer leaves open.
    const next = { offsetMs: 3 * HOUR - 400, plusMinusMs: 900, measuredAt: 10 * HOUR };
    expect(closerOffset(quick, next)).toBe(next);
  });

  it('is told of from a minute on, and not where the doubt is as large', () => {
    const off = (offsetMs: number, plusMinusMs: number): boolean =>
      isClockOff({ offsetMs, plusMinusMs, measuredAt: 0 });
    expect(off(59_000, 10)).toBe(false);
    expect(off(-61_000, 10)).toBe(true);
    expect(off(61_000, 2000)).toBe(false);
    expect(isClockOff(null)).toBe(false);
  });
});

describe('the hybrid clock', () => {
  it('never runs backwards when the tablet’s clock is set back by hours', () => {
    const first = nextClock({ last: undefined, nowMs: 1_790_000_000_000 });
    const second = nextClock({ last: first, nowMs: 1_790_000_000_000 - 5 * HOUR });
    expect(second > first).toBe(true);
  });

  it('goes on from a tablet whose calendar is wrong by decades, but not from a clock that somebody made up to stop all others', () => {
    const nowMs = 1_790_000_000_000;
    const decades = nextClock({ last: undefined, nowMs: nowMs + 60 * YEAR });
    expect(nextClock({ last: decades, nowMs }) > decades).toBe(true);
    for (const last of ['999999999999999-99999', nextClock({ last: undefined, nowMs: nowMs + 101 * YEAR })]) {
      expect(nextClock({ last, nowMs })).toBe('001790000000000-00000');
      expect(clockAfter({ own: decades, seen: [{ clock: last }], nowMs })).toBe(decades);
    }
  });
});
