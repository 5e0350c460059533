import { describe, expect, it } from 'vitest';
import { makeNamed } from '../../tests/makes.ts';
import { dayWith, typicalDays } from './typical-day.ts';

describe('the day of a make before it is planned', () => {
  const days = typicalDays(makeNamed('stretched-ball'));

  it('is longer with more milk on the same burner', () => {
    expect(days.map(({ milkL }) => milkL)).toEqual([4, 12, 40]);
    const [small = 0, large = 0, boiler = 0] = days.map(({ likelyMin }) => likelyMin);
    expect(small).toBeLessThan(large);
    expect(large).toBeLessThan(boiler);
    for (const { likelyMin, keptMin } of days) expect(keptMin).toBeGreaterThan(likelyMin);
  });

  it('lies between its neighbours for an amount in between, and does not grow without end', () => {
    const at = (milkL: number): number => dayWith({ days, milkL })?.likelyMin ?? Number.NaN;
    expect(at(12)).toBe(days[1]?.likelyMin);
    expect(at(8)).toBeGreaterThan(at(4));
    expect(at(8)).toBeLessThan(at(12));
    expect(at(500)).toBe(at(40));
    expect(at(1)).toBe(at(4));
  });

  it('is unknown where no curd was seen to get ready', () => {
    expect(dayWith({ days: [], milkL: 10 })).toBeNull();
  });
});
