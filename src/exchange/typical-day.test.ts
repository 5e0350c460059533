import { describe, expect, it } from 'vitest';
import { makeNamed } from '../../tests/makes.ts';
import { dayWith, typicalDays } from './typical-day.ts';

describe('the day of a make before it is planned', () => {
  const days = typicalDays(makeNamed('stretched-ball'));

  it('is longer with more milk on the same burner', () => {
    expect(days.map(({ milkL }) => milkL)).toEqual([5, 25]);
    expect(days[0]?.likelyMin).toBeLessThan(days[1]?.likelyMin ?? 0);
    for (const { likelyMin, keptMin } of days) expect(keptMin).toBeGreaterThan(likelyMin);
  });

  it('lies between the two for an amount in between, and does not grow without end', () => {
    const at = (milkL: number): number => dayWith({ days, milkL })?.likelyMin ?? Number.NaN;
    expect(at(25)).toBe(days[1]?.likelyMin);
    expect(at(12)).toBeGreaterThan(at(5));
    expect(at(12)).toBeLessThan(at(25));
    expect(at(500)).toBe(at(25));
    expect(at(1)).toBe(at(5));
  });

  it('is unknown where no curd was seen to get ready', () => {
    expect(dayWith({ days: [], milkL: 10 })).toBeNull();
  });
});
