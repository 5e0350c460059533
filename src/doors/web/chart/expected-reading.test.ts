import { describe, expect, it } from 'vitest';
import type { Forecast } from '../../../forecast/forecast.ts';
import { readingErrorSd } from '../../../forecast/reading-error.ts';
import { beyondOf, expectedReading } from './expected-reading.ts';

const flat = (value: number) => [value, value];
const narrow = { p5: flat(5), p25: flat(5.02), p50: flat(5.05), p75: flat(5.08), p95: flat(5.1) };
const forecast = {
  gridMin: [0, 100],
  bands: {
    pH: { p5: flat(6.3), p25: flat(6.36), p50: flat(6.4), p75: flat(6.44), p95: flat(6.5) },
    temperatureC: narrow,
  },
} as unknown as Forecast;
const setup = { thermometerErrorC: 1 };
const pH = { quantity: 'pH', sample: 'milk', elapsedMin: 50, forecast, setup } as const;
const warmth = { ...pH, quantity: 'temperatureC' } as const;
const beyond = (value: number, asked: Parameters<typeof expectedReading>[0]) => {
  const expected = expectedReading(asked);
  return expected === null ? NaN : beyondOf(value, expected);
};

describe('a reading against its forecast', () => {
  it('is quietly taken inside 98 of 100, and asked about beyond, with how far it lies off', () => {
    expect(beyond(6.52, pH)).toBeNull();
    expect(beyond(5.42, pH)).toBeCloseTo(5.42 - (expectedReading(pH)?.p5 ?? 0), 9);
    expect(beyond(7.4, pH)).toBeGreaterThan(0.8);
  });

  it('may differ by what an unchecked thermometer errs, however sure the milk is', () => {
    expect(beyond(6.2, warmth)).toBeNull();
    expect(beyond(6.2, { ...warmth, setup: { thermometerErrorC: 0.1 } })).toBeNull();
    expect(beyond(7.5, warmth)).toBeGreaterThan(0);
    expect(beyond(3, warmth)).toBeLessThan(0);
  });

  it('is wider than the milk and never narrower, and keeps its middle', () => {
    const { p5 = NaN, p25 = NaN, p50, p75 = NaN, p95 = NaN } = expectedReading(warmth) ?? {};
    expect(p50).toBe(5.05);
    expect(p5).toBeLessThan(p25);
    expect(p75).toBeLessThan(p95);
    expect(p95 - 5.05).toBeGreaterThan(1.64 * readingErrorSd({ quantity: 'temperatureC', sample: 'milk', setup }));
  });

  it('is not compared where nothing is foreseen', () => {
    expect(expectedReading({ ...pH, quantity: 'massKg' })).toBeNull();
    expect(expectedReading({ ...pH, elapsedMin: 500 })).toBeNull();
    expect(expectedReading({ ...warmth, sample: 'room' })).toBeNull();
  });
});
