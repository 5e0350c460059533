import type { Band } from '../../../forecast/forecast.ts';

/** A band cut through at one moment. */
export interface BandCut {
  readonly p5: number;
  readonly p25: number;
  readonly p50: number;
  readonly p75: number;
  readonly p95: number;
}

/** The band at one moment, linear between grid points; null outside the grid or in a gap. */
export function bandAt(input: {
  readonly gridMin: readonly number[];
  readonly band: Band;
  readonly atMin: number;
}): BandCut | null {
  const { gridMin, band, atMin } = input;
  const after = gridMin.findIndex((minutes) => minutes >= atMin);
  if (after === -1) return null;
  const before = Math.max(0, after - 1);
  const fromMin = gridMin[before] ?? Number.NaN;
  const toMin = gridMin[after] ?? Number.NaN;
  const share = toMin > fromMin ? (atMin - fromMin) / (toMin - fromMin) : 0;
  if (atMin < fromMin) return null;
  const mix = (values: readonly number[]): number => {
    const low = values[before] ?? Number.NaN;
    const high = values[after] ?? Number.NaN;
    return share === 0 ? low : low + (high - low) * share;
  };
  const cut = { p5: mix(band.p5), p25: mix(band.p25), p50: mix(band.p50), p75: mix(band.p75), p95: mix(band.p95) };
  return Number.isFinite(cut.p50) ? cut : null;
}
