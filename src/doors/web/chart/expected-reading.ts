import type { Forecast } from '../../../forecast/forecast.ts';
import { readingErrorSd } from '../../../forecast/reading-error.ts';
import type { Setup } from '../../../make/setup.ts';
import type { Sample } from '../../../make/step.ts';
import { bandOf } from './band-of.ts';
import { bandAt } from './band-at.ts';

/** What a reading was expected to say: the foreseen band and the instrument's own error about it. */
export interface ExpectedReading {
  readonly p5: number;
  readonly p25: number;
  readonly p50: number;
  readonly p75: number;
  readonly p95: number;
}

/** Standard normal quantiles: 95 % and 75 %, and 99 % as a multiple of the first. */
const Z95 = 1.6449;
const Z75 = 0.6745;
const FIVE_TO_ONE = 2.3263 / Z95;

/**
 * What an instrument was expected to read at this minute; null where nothing is foreseen. A band says what is there,
 * an instrument says somewhat else: held against the band alone an honest thermometer looks wrong.
 */
export function expectedReading(input: {
  readonly quantity: string;
  readonly sample: Sample;
  readonly elapsedMin: number;
  readonly forecast: Forecast | null;
  readonly setup: Pick<Setup, 'thermometerErrorC'>;
}): ExpectedReading | null {
  const { quantity, sample, elapsedMin, forecast, setup } = input;
  const name = bandOf({ quantity, sample });
  if (forecast === null || name === null) return null;
  const cut = bandAt({ gridMin: forecast.gridMin, band: forecast.bands[name], atMin: elapsedMin });
  if (cut === null) return null;
  const sd = readingErrorSd({ quantity: name === 'temperatureC' ? 'temperatureC' : 'pH', sample, setup });
  const away = (quantile: number, z: number): number => Math.hypot(quantile - cut.p50, z * sd);
  return {
    p5: cut.p50 - away(cut.p5, Z95),
    p25: cut.p50 - away(cut.p25, Z75),
    p50: cut.p50,
    p75: cut.p50 + away(cut.p75, Z75),
    p95: cut.p50 + away(cut.p95, Z95),
  };
}

/** How far a value lies beyond the nearer 5 % end when it is outside 98 of 100, negative below; null inside. */
export function beyondOf(value: number, expected: ExpectedReading): number | null {
  const { p5, p50, p95 } = expected;
  if (value < p50 - (p50 - p5) * FIVE_TO_ONE) return value - p5;
  return value > p50 + (p95 - p50) * FIVE_TO_ONE ? value - p95 : null;
}
