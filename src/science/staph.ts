/**
 * How far Staphylococcus aureus could have grown in milk that stays warm and does not acidify.
 * A count of what is possible, without lag and without the starter's competition: information, not a verdict. A slow vat
 * is judged by the culture's own forecast and the trade's hours (`cautions.ts`).
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';
import { type Cardinals, cardinalShare } from './growth.ts';

export const staphValidity: Validity = {
  temperatureC: {
    low: 7,
    high: 46.7,
    unit: '°C',
    source: 'Fujikawa & Morozumi 2006 (10 to 34 °C); Medveďová et al. 2019 (to 46.7 °C)',
  },
};

const LN10 = Math.LN10;
export const STAPH_STOPS_BELOW_PH = 5.3; // our own choice from ICMSF 1996's limits, above the 4.5 of toxin: acid counts only once it is really there
const STAPH_STOPS_BELOW_C = 7; // ICMSF 1996: least temperature of growth
const JOIN_C = 34; // our own choice: upper end of Fujikawa & Morozumi 2006

const WARM_CARDINALS: Cardinals = { min: 7.7, best: 40.6, max: 46.7 }; // Medveďová et al. 2019

/** Kernel of `staphRatePerH`: natural-log growth rate [1/h]; 0 below 7 °C and above 46.7 °C. */
export function staphRateKernel(temperatureC: number): number {
  if (!(temperatureC > STAPH_STOPS_BELOW_C)) return 0;
  if (temperatureC <= JOIN_C) return (0.0442 * (temperatureC - 5.407)) ** 2; // Fujikawa & Morozumi 2006
  return 1.97 * cardinalShare({ at: temperatureC, cardinals: WARM_CARDINALS, order: 2 }); // Medveďová et al. 2019
}

/**
 * Growth of S. aureus in one minute [log10 per min] (kernel for the slow vat): 0 where it is cold or acid enough.
 * @param input.temperatureC milk or curd [°C]
 * @param input.pH its pH [-]; NaN where nobody knows, which counts as not acid
 */
export function staphLogsPerMinKernel(input: { readonly temperatureC: number; readonly pH: number }): number {
  if (input.pH <= STAPH_STOPS_BELOW_PH) return 0;
  return staphRateKernel(input.temperatureC) / (60 * LN10);
}

/**
 * Growth rate of S. aureus in milk.
 *
 * sqrt(mu) = 0.0442 (T - 5.407) up to 34 °C; above, 1.97 CM2(T; 7.7, 40.6, 46.7)
 *
 * @param temperatureC milk [°C], 7 to 46.7
 * @returns natural-log growth rate [1/h]; over ln 10 it is decimal steps an hour
 * Valid: as `staphValidity`, milk of pH 6 to 7. Uncertainty: the published equations agree within 3 % from 25 to 34 °C.
 * @throws InputError outside the range
 * @source Fujikawa & Morozumi (2006) Food Microbiol. 23:260 [equation seen in a model library]; Medveďová et al. (2019)
 *   Ital. J. Food Saf. 8:8287 [abstract seen]
 */
export function staphRatePerH(temperatureC: number): number {
  requireWithin(staphValidity, { temperatureC });
  return staphRateKernel(temperatureC);
}

/**
 * Decimal steps S. aureus could have grown over a record of temperature and pH.
 *
 * logs = (1/ln 10) * integral of mu(T) dt while T > 7 °C and pH > 5.3, straight lines between readings (trapezium in mu)
 *
 * @param input.readings in order of time: minute [min], temperature [°C], pH [-] or null where not measured
 * @returns decimal steps [log10]
 * Valid: milk and curd. Uncertainty: an upper view: no lag, no competition, pH unknown counts as not acid.
 * @source as `staphRatePerH`; the use of an integral is our own
 */
export function staphLogs(input: {
  readonly readings: readonly { readonly minute: number; readonly temperatureC: number; readonly pH: number | null }[];
}): number {
  let logs = 0;
  let before: { minute: number; perMin: number } | null = null;
  for (const { minute, temperatureC, pH } of input.readings) {
    const perMin = staphLogsPerMinKernel({ temperatureC, pH: pH ?? Number.NaN });
    if (before !== null) logs += 0.5 * (before.perMin + perMin) * (minute - before.minute);
    before = { minute, perMin };
  }
  return logs;
}
