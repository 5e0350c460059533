import { describe, expect, it } from 'vitest';
import { readTyped } from './typed-quantity.ts';

const litres = (text: string) => readTyped({ text, field: 'milk.volumeL', unit: 'L', into: 'L' });
const valueOf = (read: ReturnType<typeof readTyped>): number => ('value' in read ? read.value : Number.NaN);

describe('a typed quantity', () => {
  it('takes a decimal point and a decimal comma alike', () => {
    expect([valueOf(litres('10.5')), valueOf(litres('10,5')), valueOf(litres(' 10 '))]).toEqual([10.5, 10.5, 10]);
  });

  it('keeps a minus, so that the plan can refuse it by name', () => {
    expect(valueOf(litres('-3'))).toBe(-3);
  });

  it('believes a unit of the same kind behind the number', () => {
    expect(valueOf(litres('2 gal'))).toBeCloseTo(7.57, 2);
    expect(valueOf(readTyped({ text: '98.6 °F', field: 'milk.temperatureC', unit: 'C', into: 'C' }))).toBeCloseTo(
      37,
      6,
    );
  });

  it('takes the unit system of the reader for a bare number', () => {
    expect(valueOf(readTyped({ text: '68', field: 'room.temperatureC', unit: 'F', into: 'C' }))).toBeCloseTo(20, 6);
  });

  it('refuses words, empty fields and units of another kind, and says what would do', () => {
    for (const text of ['', 'some', '10 kg', '1e', '1.2.3', '--3']) {
      const read = litres(text);
      expect('problem' in read && read.problem.field, text).toBe('milk.volumeL');
    }
  });
});
