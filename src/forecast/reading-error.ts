import type { Setup } from '../make/setup.ts';
import type { Sample } from '../make/step.ts';

export const METER_SD = 0.03; // a kitchen meter in a liquid, acidification notes 5.5 rule 2 (our own fit)
export const FLAT_PROBE_SD = 0.05; // on curd, same rule
export const METER_BIAS_SD = 0.02; // our own choice
export const THERMOMETER_SD_C = 0.5; // our own choice: where the probe hangs and how it was stirred

/** Standard deviation of a thermometer's own offset [K]: the largest error named is taken as two of them. */
export const thermometerBiasSd = (setup: Pick<Setup, 'thermometerErrorC'>): number => setup.thermometerErrorC / 2;

/**
 * How far a reading may stray from what is really there, offset and handling together, as a standard deviation.
 * @param input.sample where it was read: a flat probe on curd is worse than a probe in milk or whey
 * @returns pH units or K
 */
export function readingErrorSd(input: {
  readonly quantity: 'pH' | 'temperatureC';
  readonly sample: Sample;
  readonly setup: Pick<Setup, 'thermometerErrorC'>;
}): number {
  const { quantity, sample, setup } = input;
  return quantity === 'temperatureC'
    ? Math.hypot(THERMOMETER_SD_C, thermometerBiasSd(setup))
    : Math.hypot(sample === 'milk' || sample === 'whey' ? METER_SD : FLAT_PROBE_SD, METER_BIAS_SD);
}
