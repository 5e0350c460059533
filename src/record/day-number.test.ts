import { describe, expect, it } from 'vitest';
import { dayNumber, dayText } from './day-number.ts';

describe('a day as a number', () => {
  it('is the same day as in the calendar of the machine, for two centuries', () => {
    for (let day = -25_000; day < 50_000; day += 97) {
      const text = new Date(day * 86_400_000).toISOString().slice(0, 10);
      expect(dayText(day)).toBe(text);
      expect(dayNumber(text)).toBe(day);
    }
  });

  it('knows the leap day, and no 31 June', () => {
    expect(dayNumber('2028-03-01') - dayNumber('2028-02-28')).toBe(2);
    expect(dayNumber('2027-03-01') - dayNumber('2027-02-28')).toBe(1);
    expect([dayNumber('2026-06-31'), dayNumber('2026-13-01'), dayNumber('Monday')]).toEqual([NaN, NaN, NaN]);
  });
});
