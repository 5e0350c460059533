import { describe, expect, it } from 'vitest';
import { firstPotsWish, lastPotLagMs } from './pots-together.ts';

const FIVE = Date.UTC(2026, 2, 4, 17, 0);
const MINUTE = 60_000;
const clock = { time: '17:00', day: '2026-03-04' };

describe('several pots with one wish for the clock', () => {
  it('to have the last one done by five, the first is done by so much earlier', () => {
    const wish = firstPotsWish({ clock: { ...clock, mode: 'done-by' }, pots: { count: 3, apartMin: 15 } }, FIVE);
    expect(wish).toEqual({ mode: 'done-by', at: FIVE - 30 * MINUTE });
  });

  it('a start at five is the first pot’s', () => {
    const wish = firstPotsWish({ clock: { ...clock, mode: 'start-at' }, pots: { count: 3, apartMin: 15 } }, FIVE);
    expect(wish).toEqual({ mode: 'start-at', at: FIVE });
  });

  it('one pot, or pots begun at once, wait for nobody', () => {
    expect(lastPotLagMs({ count: 1, apartMin: 15 })).toBe(0);
    expect(lastPotLagMs({ count: 8, apartMin: 0 })).toBe(0);
  });
});
