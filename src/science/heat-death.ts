/**
 * What heat does to the culture and to the rennet while they are at work: how many cells an overheated vat kills, and how
 * much of the rennet it spoils. First-order death, faster tenfold for every few degrees.
 *
 * For cheese cultures hardly anything is published: the numbers for cells are one printed value and our own choices, so the
 * spread is wide, and what is told of them is told as unconfirmed. Left out: injury short of death, cells hardened by a
 * first heating, the shelter of the curd.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';
import { CULTURES, type CultureKind, type CultureTraits } from './culture.ts';

/** Minutes that kill nine cells in ten at one temperature, and the degrees that make it ten times as fast. */
interface HeatDeath {
  readonly decimalMin: number;
  readonly atC: number;
  readonly zC: number;
  /** ln-standard deviation of the minutes. */
  readonly lnSd: number;
}

/**
 * S. thermophilus in milk: 14 min at 60 °C, in water 2 min (J. Ind. Microbiol. Biotechnol. 2002, 28:134, abstract seen).
 * z between 3.7 (Lb. bulgaricus in milk, a conference abstract of 2015, seen) and 9.5 (another coccus in milk), our own choice.
 * Lactococci: some strains live through 30 min at 60 °C and some do not (Chandan and Kilara 2011, Table 10.2, seen), so our own
 * choice, and the spread of both.
 */
export const CULTURE_HEAT_DEATH: Readonly<Record<'thermophilic' | 'mesophilic', HeatDeath>> = {
  thermophilic: { decimalMin: 14, atC: 60, zC: 5.5, lnSd: 1.2 },
  mesophilic: { decimalMin: 14, atC: 54, zC: 5.5, lnSd: 1.2 },
};

/** Chymosin in gelled milk of pH 6.5: 30 min at 53 °C (Garnot and Mollé 1987, J. Food Sci., abstract seen); z 5.4 °C (heat inactivation of milk-clotting enzymes at pH 4.5 to 6.5, abstract seen, authors not shown). */
const RENNET_HEAT_DEATH = { decimalMin: 30, atC: 53, zC: 5.4 } as const;
/** Up to here no rennet is lost within a make: the rule has 4 % an hour at 42 °C, and was measured nowhere near. */
export const RENNET_HOLDS_BELOW_C = 42; // our own choice

export const heatDeathValidity: Validity = {
  temperatureC: { low: 0, high: 70, unit: '°C', source: 'measured at 53 to 70 °C; below, nothing dies' },
  minutes: { low: 0, high: 1440, unit: 'min', source: 'a day (our own bound)' },
};

const familyOf = (culture: Pick<CultureTraits, 'temperatureMinC'>): keyof typeof CULTURE_HEAT_DEATH =>
  culture.temperatureMinC >= CULTURES.thermophilic.temperatureMinC ? 'thermophilic' : 'mesophilic';

/**
 * Share of the culture still alive after so long at one temperature (kernel, unchecked): 1 up to its highest temperature of
 * growth, above it 10^(-t / D), D = D_ref 10^((T_ref - T) / z) exp(z_member sd).
 */
export function survivingFractionKernel(input: {
  culture: CultureTraits;
  temperatureC: number;
  minutes: number;
  /** Standard normal deviate of how hardy this lot is [-]. */
  hardinessZ: number;
}): number {
  const { culture, temperatureC, minutes } = input;
  if (temperatureC <= culture.temperatureMaxC) return 1;
  const { decimalMin, atC, zC, lnSd } = CULTURE_HEAT_DEATH[familyOf(culture)];
  const decimalNow = decimalMin * 10 ** ((atC - temperatureC) / zC) * Math.exp(lnSd * input.hardinessZ);
  return 10 ** (-minutes / decimalNow);
}

/** Share of the rennet still active after so long at one temperature (kernel, unchecked). */
export function rennetActiveKernel(input: { temperatureC: number; minutes: number }): number {
  if (input.temperatureC <= RENNET_HOLDS_BELOW_C) return 1;
  const { decimalMin, atC, zC } = RENNET_HEAT_DEATH;
  return 10 ** (-input.minutes / (decimalMin * 10 ** ((atC - input.temperatureC) / zC)));
}

const Z95 = 1.645; // standard normal, 95 %

/**
 * How much of the culture lives through an overheated vat.
 *
 * 10^(-t / D), D = D_ref 10^((T_ref - T) / z): thermophiles 14 min at 60 °C, mesophiles at 54 °C, z 5.5 °C. Up to the culture's
 * highest temperature of growth nothing dies; it stands still there, and goes on when it cools.
 *
 * @param input.kind  the culture
 * @param input.temperatureC  of the milk or curd [°C], 0 to 70
 * @param input.minutes  for how long [min], 0 to 1440
 * @returns living share [-] with its 90 % band
 * Valid: as `heatDeathValidity`. Uncertainty: the minutes are good to a factor of 7 either way at 90 %, our own statement.
 * @throws InputError naming every field that does not fit
 * @source one printed value for S. thermophilus, abstract seen; all else our own choice (`CULTURE_HEAT_DEATH`)
 */
export function cultureSurvival(input: { kind: CultureKind; temperatureC: number; minutes: number }): {
  p5: number;
  p50: number;
  p95: number;
} {
  const { kind, temperatureC, minutes } = input;
  requireWithin(heatDeathValidity, { temperatureC, minutes });
  const culture = CULTURES[kind];
  const at = (hardinessZ: number): number => survivingFractionKernel({ culture, temperatureC, minutes, hardinessZ });
  return { p5: at(-Z95), p50: at(0), p95: at(Z95) };
}

/**
 * How much of the rennet an overheated vat leaves.
 *
 * 10^(-t / D), D = 30 min at 53 °C, ten times as fast for every 5.4 °C; nothing up to 42 °C.
 *
 * @param input.temperatureC  of the milk [°C], 0 to 70
 * @param input.minutes  for how long [min], 0 to 1440
 * @returns active share [-], 0 to 1
 * Valid: as `heatDeathValidity`; calf chymosin at pH 6.5 (sourer milk protects it; microbial rennets stand more heat).
 * Uncertainty: a factor of 3 on the minutes, our own statement.
 * @throws InputError naming every field that does not fit
 * @source Garnot and Mollé (1987) J. Food Sci., abstract seen; z from an abstract seen, authors not shown
 */
export function rennetActive(input: { temperatureC: number; minutes: number }): number {
  requireWithin(heatDeathValidity, { ...input });
  return rennetActiveKernel(input);
}
