import type { Band, Forecast } from '../../../forecast/forecast.ts';
import type { ForecastAnswer, ForecastReply } from './forecast-messages.ts';

/** The bands of a forecast in the order in which they travel. */
const QUANTITIES = ['pH', 'wheyPH', 'temperatureC', 'curdMoisturePercent', 'curdKg', 'saltPercent'] as const satisfies (keyof Forecast['bands'])[]; // prettier-ignore
const LEVELS = ['p5', 'p25', 'p50', 'p75', 'p95'] as const satisfies (keyof Band)[];

/**
 * A forecast on its way to the page. Its bands, six thousand numbers of which a card looks at a handful, lie in one piece of
 * memory, and are taken apart only by who draws them.
 */
export interface PackedForecast extends Omit<Forecast, 'bands'> {
  readonly packed: Float64Array<ArrayBuffer>;
}

/** Packs a forecast; `packed.buffer` may be transferred. All bands stand on the same grid. */
export function packed({ bands, ...rest }: Forecast): PackedForecast {
  const points = rest.gridMin.length;
  const numbers = new Float64Array(QUANTITIES.length * LEVELS.length * points);
  QUANTITIES.forEach((quantity, q) => {
    LEVELS.forEach((level, l) => numbers.set(bands[quantity][level], (q * LEVELS.length + l) * points));
  });
  return { ...rest, packed: numbers };
}

/** The forecast again; its bands are there when they are asked for. */
export function unpacked({ packed: numbers, ...rest }: PackedForecast): Forecast {
  let bands: Forecast['bands'] | null = null;
  return {
    ...rest,
    get bands() {
      return (bands ??= bandsIn(numbers, rest.gridMin.length));
    },
  };
}

function bandsIn(numbers: Float64Array, points: number): Forecast['bands'] {
  const level = (q: number, l: number): number[] => {
    const from = (q * LEVELS.length + l) * points;
    return [...numbers.subarray(from, from + points)];
  };
  const band = (quantity: (typeof QUANTITIES)[number]): Band => {
    const q = QUANTITIES.indexOf(quantity);
    return { p5: level(q, 0), p25: level(q, 1), p50: level(q, 2), p75: level(q, 3), p95: level(q, 4) };
  };
  return {
    pH: band('pH'),
    wheyPH: band('wheyPH'),
    temperatureC: band('temperatureC'),
    curdMoisturePercent: band('curdMoisturePercent'),
    curdKg: band('curdKg'),
    saltPercent: band('saltPercent'),
  };
}

/** A reply of the worker, for the page. */
export const opened = (reply: ForecastReply): ForecastAnswer =>
  'failed' in reply ? reply : { ...reply, forecast: unpacked(reply.forecast) };
