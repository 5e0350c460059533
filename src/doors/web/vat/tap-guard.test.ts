import { describe, expect, it } from 'vitest';
import { counts, NEVER_TAPPED, type Acted, type Tap } from './tap-guard.ts';

const finger = (stampMs: number, x = 200, y = 500): Tap => ({ stampMs, x, y, mayBeSecond: true });
const mouse = (stampMs: number): Tap => ({ ...finger(stampMs), mayBeSecond: false });
const acted = (stampMs: number, hasKept = false): Acted => ({ stampMs, x: 200, y: 500, hasKept });
const other = -Infinity;

describe('a tile under a wet hand', () => {
  it('hears the first tap of all', () => {
    expect(counts({ tap: finger(0), last: NEVER_TAPPED, buttonActedMs: other })).toBe(true);
  });

  it('hears the second tap of a double one neither from a finger nor from a mouse', () => {
    expect(counts({ tap: finger(1180), last: acted(1000), buttonActedMs: 1000 })).toBe(false);
    expect(counts({ tap: mouse(1180), last: acted(1000), buttonActedMs: 1000 })).toBe(false);
    expect(counts({ tap: finger(1400), last: acted(1000), buttonActedMs: 1000 })).toBe(true);
  });

  it('does not take the last digit with the second tap that was meant for the whole number', () => {
    expect(counts({ tap: finger(1180), last: acted(1000), buttonActedMs: other })).toBe(false);
    expect(counts({ tap: finger(1180, 215, 520), last: acted(1000), buttonActedMs: other })).toBe(false);
    // The last digit often lies where the whole number lay, and an honest second pick is not slowed.
    expect(counts({ tap: finger(1320), last: acted(1000), buttonActedMs: other })).toBe(true);
    // Another finger's width away it is another tile, and meant.
    expect(counts({ tap: finger(1180, 320, 500), last: acted(1000), buttonActedMs: other })).toBe(true);
  });

  it('lets what was kept stand: a slow second tap does not press what the noted reading gave way to', () => {
    for (const late of [150, 350, 590]) {
      expect(counts({ tap: finger(1000 + late), last: acted(1000, true), buttonActedMs: other }), `${late} ms`).toBe(false); // prettier-ignore
    }
    expect(counts({ tap: finger(1600), last: acted(1000, true), buttonActedMs: other })).toBe(true);
    expect(counts({ tap: finger(1350, 60, 700), last: acted(1000, true), buttonActedMs: other })).toBe(true);
  });

  it('never holds up single clicks of a mouse on different buttons', () => {
    expect(counts({ tap: mouse(1050), last: acted(1000, true), buttonActedMs: other })).toBe(true);
  });
});
