/** How free the water of a cheese is: what salt (and, in young cheese, acidity) leave for microbes. */
import { requireWithin, type Validity } from '../numbers/validity.ts';
import { sodiumChlorideWaterActivityKernel } from './brine.ts';

export const waterActivityValidity: Validity = {
  moisturePercent: { low: 40, high: 85, unit: '% of the cheese', source: 'Marcos et al. 1981: above about 40 % water' },
  saltInMoisturePercent: { low: 0, high: 20, unit: 'g per 100 g water', source: 'Marcos et al. 1981; salt in cheeses' },
  pH: { low: 4.3, high: 6.8, unit: 'pH', source: 'unripe cheeses, J. Dairy Res. 1990; our own choice of ends' },
};

export interface WaterActivity {
  readonly waterActivity: number;
  /** Half width of the band in which the true value lies 9 times out of 10. */
  readonly error: number;
}

const LEAST_ERROR = 0.01; // our own choice: an estimate from salt is never taken for a measurement

/** Salt in moisture [g per 100 g water] from percentages of the cheese. */
export const saltInMoistureOf = (input: { readonly saltPercent: number; readonly moisturePercent: number }): number =>
  (100 * input.saltPercent) / input.moisturePercent;

/** Kernel: a_w from salt in moisture [g per 100 g water] alone, Marcos et al. 1981. */
export const marcosWaterActivityKernel = (saltInMoisturePercent: number): number => 1 - 0.00565 * saltInMoisturePercent; // Marcos et al. 1981: 1 - 0.033 m, m in mol NaCl per kg water

/** Kernel: a_w of unripe cheese from salt in moisture and pH (regression of 1990). */
export const unripeWaterActivityKernel = (input: {
  readonly saltInMoisturePercent: number;
  readonly pH: number;
}): number => 0.9719 - 0.0044 * input.saltInMoisturePercent + 0.0041 * input.pH; // J. Dairy Res. 1990, unripe cheeses

/**
 * Water activity of a cheese from its salt and water.
 *
 * a_w = 1 - 0.00565 S/M; with a pH the mean of this and 0.9719 - 0.0044 S/M + 0.0041 pH (unripe cheese)
 *
 * @param input.moisturePercent water in the cheese [% of mass], 40 to 85
 * @param input.saltPercent salt in the cheese [% of mass], so that salt in moisture is 0 to 20
 * @param input.pH of the cheese [-], 4.3 to 6.8; left out, salt alone counts
 * @returns water activity [-] and its error (half the 90 % band, at least 0.01)
 * Valid: as `waterActivityValidity`; below 40 % water other solids bind water too and the true value is lower.
 * Uncertainty: the returned error; the two equations and pure salt water differ by at most 0.004 from 4 to 8 S/M.
 * @throws InputError outside the range
 * @source Marcos, Alcalá, León, Fernández-Salguero & Esteban (1981) J. Dairy Sci. 64:622 [abstract seen; authors from memory];
 *   unripe cheese: (1990) J. Dairy Res., R2 0.95, 87 % within 0.005 [abstract seen]
 */
export function cheeseWaterActivity(input: {
  readonly moisturePercent: number;
  readonly saltPercent: number;
  readonly pH?: number;
}): WaterActivity {
  const saltInMoisturePercent = saltInMoistureOf(input);
  requireWithin(waterActivityValidity, { moisturePercent: input.moisturePercent, saltInMoisturePercent, pH: input.pH });
  const rivals = [
    marcosWaterActivityKernel(saltInMoisturePercent),
    sodiumChlorideWaterActivityKernel(saltInMoisturePercent),
  ];
  if (input.pH !== undefined) rivals.push(unripeWaterActivityKernel({ saltInMoisturePercent, pH: input.pH }));
  const marcos = rivals[0] ?? 1;
  const waterActivity = Math.min(1, input.pH === undefined ? marcos : (marcos + (rivals[2] ?? marcos)) / 2);
  const widest = Math.max(...rivals.map((rival) => Math.abs(rival - waterActivity)));
  return { waterActivity, error: Math.max(LEAST_ERROR, widest + 0.005) };
}
