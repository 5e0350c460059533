import { describe, expect, it } from 'vitest';
import { convert } from './units.ts';
import { usVolume } from './us-volume.ts';

const said = (volumeL: number): string => {
  const { value, digits, unit } = usVolume(volumeL) ?? { value: 0, digits: 1, unit: 'less' };
  return `${value.toFixed(digits)} ${unit}`;
};
const gallons = (value: number): number => convert({ value, from: 'us-gallon', to: 'L' });

describe('a volume as an American kitchen says it', () => {
  it('keeps gallons gallons, and quarts quarts below one', () => {
    expect(said(gallons(2))).toBe('2.0 us-gallon');
    expect(said(gallons(1))).toBe('1.0 us-gallon');
    expect(said(gallons(0.5))).toBe('2.0 us-quart');
    expect(said(0.2)).toBe('0.0 less');
  });

  it('takes a second figure where one would round a quarter of a gallon away', () => {
    expect(said(gallons(1.25))).toBe('1.25 us-gallon');
    expect(said(gallons(3.5))).toBe('3.5 us-gallon');
    expect(said(10)).toBe('2.6 us-gallon');
    expect(said(3.6)).toBe('3.8 us-quart');
  });
});
