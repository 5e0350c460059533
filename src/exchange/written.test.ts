import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openWriter, outward } from './written.ts';

const metric = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'Europe/London' });
const us = openWriter({ language: 'en-US', units: 'us', timeZone: 'UTC' });
const plain = (text: string): string => text.replace(/\u202F/g, ' ');

describe('quantities as people read them', () => {
  it('gives weights three figures, pH two places, temperature one', () => {
    expect(plain(metric.kilograms(1.5134).text)).toBe('1.51 kg');
    expect(plain(metric.grams(0.314).text)).toBe('0.31 g');
    expect(plain(metric.kilograms(0.95).text)).toBe('950 g');
    expect(metric.pH(5.2).text).toBe('5.20');
    expect(plain(metric.temperature(37.04).text)).toBe('37.0 °C');
  });

  it('reads small volumes as a syringe shows them and large ones in litres', () => {
    expect(['2.77', '46.4', '460'].map((ml) => plain(metric.millilitres(Number(ml)).text))).toEqual(['2.8 mL', '46 mL', '460 mL']); // prettier-ignore
    expect([3, 10, 12.5].map((litres) => plain(metric.litres(litres).text))).toEqual(['3.0 L', '10 L', '12.5 L']);
  });

  it('turns milk, heat, weight and depth into US units and leaves grams and millilitres of doses alone', () => {
    expect(plain(us.litres(10).text)).toBe('2.6 gal');
    expect(plain(us.temperature(37).text)).toBe('99 °F');
    expect(plain(us.kilograms(1).text)).toBe('2.20 lb');
    expect(plain(us.depth(6.2).text)).toBe('2.4 in');
    expect([plain(us.grams(0.3).text), plain(us.millilitres(2.3).text)]).toEqual(['0.30 g', '2.3 mL']);
  });

  it('tells time by the reader’s clock and length without seconds', () => {
    const fiveInTheEvening = Date.UTC(2026, 2, 4, 17, 0);
    expect(metric.clock(fiveInTheEvening)).toBe('17:00');
    expect(plain(us.clock(fiveInTheEvening))).toBe('5:00 pm');
    expect([40, 60, 100, 1440].map((minutes) => plain(metric.duration(minutes)))).toEqual(['40 min', '1 h', '1 h 40 min', '24 h']); // prettier-ignore
  });

  it('rounds a span outward, so that it never promises more than was computed', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), fc.double({ min: 0, max: 10, noNaN: true }), fc.constantFrom(0.01, 0.1, 1), (low, width, step) => {
        const span = outward({ low, high: low + width, step });
        expect(span.low).toBeLessThanOrEqual(low + 1e-6);
        expect(span.high).toBeGreaterThanOrEqual(low + width - 1e-6);
        expect(span.high - span.low).toBeLessThanOrEqual(width + 2 * step + 1e-6);
      }),
      { seed: 20261125, numRuns: 300 },
    ); // prettier-ignore
  });
});
