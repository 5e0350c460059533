import type { BandQuantity } from '../../../forecast/forecast.ts';

/** Which foreseen band a reading is held against, if any: whey has a pH of its own, and water, brine and room have none. */
export function bandOf(reading: { readonly quantity: string; readonly sample: string }): BandQuantity | null {
  const { quantity, sample } = reading;
  if (quantity === 'pH') return sample === 'whey' ? 'wheyPH' : 'pH';
  if (quantity !== 'temperatureC') return null;
  return sample === 'room' || sample === 'water' || sample === 'brine' ? null : 'temperatureC';
}
