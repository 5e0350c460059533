import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { displayValue, isQuantityName, judgeValue, parseTyped, QUANTITIES, type QuantityName } from './quantity.ts';
import { sentenceInUnits } from './sentence.ts';

const names = Object.keys(QUANTITIES).filter(isQuantityName);
const typed = (
  quantity: QuantityName,
  keys: string,
  units: 'metric' | 'us' = 'metric',
): ReturnType<typeof parseTyped> => parseTyped({ quantity, keys, units });

describe('the keypad', () => {
  it('reads three keys as a pH with two decimals', () => {
    expect(typed('pH', '642')).toEqual({ verdict: 'accepted', value: 6.42 });
    expect(typed('pH', '6,42')).toEqual({ verdict: 'accepted', value: 6.42 });
  });

  it('reads temperatures in the unit of the reader and keeps degrees Celsius', () => {
    expect(typed('temperatureC', '370')).toEqual({ verdict: 'accepted', value: 37 });
    const read = typed('temperatureC', '98.6', 'us');
    expect(read.verdict).toBe('accepted');
    expect(read.verdict === 'accepted' ? read.value : Number.NaN).toBeCloseTo(37, 9);
  });

  it('refuses what is no number', () => {
    for (const keys of ['', 'ph', '6.4.2', '--3']) expect(typed('pH', keys).verdict).toBe('refused');
  });

  it('refuses pH 0.19, which no milk, curd or brine has', () => {
    expect(typed('pH', '19').verdict).toBe('refused');
    expect(typed('pH', '900').verdict).toBe('doubtful');
  });

  it('refuses pH 64.2 and asks for 6.42', () => {
    const read = typed('pH', '64.2');
    expect(read.verdict).toBe('refused');
    expect(read.verdict === 'refused' ? read.meant?.value : null).toBe(6.42);
  });

  it('takes 21.0 kg of cheese from grams', () => {
    const read = judgeValue({ quantity: 'massKg', value: 2100, field: 'massKg' });
    expect(read.verdict === 'refused' ? read.meant?.value : null).toBe(2.1);
  });

  it('doubts hot brine but not hot whey', () => {
    expect(judgeValue({ quantity: 'temperatureC', value: 80, field: 'x', sample: 'brine' }).verdict).toBe('doubtful');
    expect(judgeValue({ quantity: 'temperatureC', value: 80, field: 'x', sample: 'whey' }).verdict).toBe('accepted');
  });
});

describe('the table of quantities', () => {
  it.each(names)('%s has its plausible range inside the possible one', (name) => {
    const { possible, plausible } = QUANTITIES[name];
    expect(plausible.low).toBeGreaterThanOrEqual(possible.low);
    expect(plausible.high).toBeLessThanOrEqual(possible.high);
    expect(plausible.low).toBeLessThan(plausible.high);
  });

  it('shows a value and reads it back to within its last digit', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...names),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.constantFrom('metric', 'us', 'imperial'),
        (quantity, place, units) => {
          const { plausible } = QUANTITIES[quantity];
          const value = plausible.low + place * (plausible.high - plausible.low);
          const shown = displayValue({ quantity, value, units });
          const back = parseTyped({ quantity, keys: shown.text.includes('.') ? shown.text : `${shown.text}.`, units });
          expect(
            back.verdict === 'refused' ? Number.NaN : displayValue({ quantity, value: back.value, units }).text,
          ).toBe(shown.text);
        },
      ),
      { seed: 20261125, numRuns: 300 },
    );
  });
});

describe('sentences in the reader’s units', () => {
  it('turn every temperature, also in ranges', () => {
    expect(sentenceInUnits({ text: 'Stop at 42 °C, never 36.5 to 37.5 °C.', units: 'us' })).toBe(
      'Stop at 108 °F, never 98 to 100 °F.',
    );
    expect(sentenceInUnits({ text: 'Stop at 42 °C.', units: 'metric' })).toBe('Stop at 42 °C.');
  });

  it('turn litres and kilograms, and leave what is for each of something', () => {
    const us = (text: string): string => sentenceInUnits({ text, units: 'us' });
    expect(us('more than 10 L of milk, 0.5 to 1000 L, make 1.9 L.')).toBe('more than 2.6 gal of milk, 0.13 to 264 gal, make 2 qt.'); // prettier-ignore
    expect(us('The pot weighs 24 kg.')).toBe('The pot weighs 53 lb.');
    for (const each of [
      '45 IMCU/L of milk',
      '1.03 kg/L',
      '12.4 kg per 100 kg',
      '0.19 L per litre',
      '0.3 kg for each cheese',
    ]) {
      // prettier-ignore
      expect(us(each)).toBe(each);
    }
  });

  it('do not take a thermometer that is 1 °C out for one that is 34 °F out', () => {
    const text = 'It was 1 °C (1.8 °F) out in ice at 0 °C.';
    expect(sentenceInUnits({ text, units: 'us' })).toBe('It was 1.8 °F out in ice at 32 °F.');
    expect(sentenceInUnits({ text, units: 'metric' })).toBe('It was 1 °C out in ice at 0 °C.');
  });
});
