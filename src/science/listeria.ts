/**
 * Whether a cheese belongs to the legal category of foods that cannot support Listeria monocytogenes. A category of two
 * texts about pH and water activity, counted against the maker at every doubt; not a verdict on any cheese.
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';

export type ListeriaCategory = 'cannot-support' | 'supports' | 'unknown';

/** The line of the texts that decided. */
export type ListeriaRule = 'acid' | 'dry' | 'acid-and-dry' | 'frozen' | 'surface-ripened' | 'doubt' | 'none';

export interface ListeriaCheese {
  readonly temperatureC: number;
  /** The highest of rind and core, now and at the end of its life. */
  readonly pH: number;
  readonly waterActivity: number;
  readonly pHError?: number;
  readonly waterActivityError?: number;
  /** Mould or smear on the rind takes the acid away. */
  readonly isSurfaceRipened?: boolean;
}

export interface ListeriaVerdict {
  readonly canGrow: boolean;
  readonly category: ListeriaCategory;
  readonly rule: ListeriaRule;
}

export const PH_ERROR = 0.1; // common practice (no source): a meter checked in two buffers; a strip 0.3
export const WATER_ACTIVITY_ERROR = 0.01; // our own choice: an estimate from salt is never taken for a measurement
const ACID_PH = 4.4; // Codex CAC/GL 61-2007, as quoted on a slide, seen; EU 2073/2005 Annex I 1.3 the same figure
const DRY_ACTIVITY = 0.92; // same
const BOTH_PH = 5; // same
const BOTH_ACTIVITY = 0.94; // same
const FROZEN_C = -18; // DG SANCO 2008 guidance as reprinted, seen: none at -18 °C, though it survives there
export const SHORT_LIFE_DAYS = 5; // EU 2073/2005 Annex I 1.3, excerpt seen: under 5 days the law itself puts a food there

export const listeriaRuleValidity: Validity = {
  temperatureC: { low: -40, high: 45.5, unit: '°C', source: 'a deep freezer to the warmest at which it grows' },
  pH: { low: 3.5, high: 9.6, unit: 'pH', source: 'curd to the ripest rind (our own bounds)' },
  waterActivity: { low: 0.8, high: 1, unit: '-', source: 'very dry cheese to water (our own bounds)' },
};

/** Which line of the texts holds, strictly below its figure; null where none does (kernel, no errors counted). */
export function listeriaLimitKernel(input: {
  readonly pH: number;
  readonly waterActivity: number;
}): 'acid' | 'dry' | 'acid-and-dry' | null {
  if (input.pH < ACID_PH) return 'acid';
  if (input.waterActivity < DRY_ACTIVITY) return 'dry';
  return input.pH < BOTH_PH && input.waterActivity < BOTH_ACTIVITY ? 'acid-and-dry' : null;
}

/**
 * The legal category of a cheese, with the errors of pH and water activity counted against it.
 *
 * Cannot support only if pH + its error < 4.4, or a_w + its error < 0.92, or pH + error < 5.0 and a_w + error < 0.94, or frozen;
 * never for a surface-ripened cheese, whose rind loses its acid. A reading that meets a line, but not with its error, is
 * unknown, and counts as growing.
 *
 * @param input.temperatureC  of store [°C], -40 to 45.5
 * @param input.pH  highest of rind and core [-], 3.5 to 9.6
 * @param input.waterActivity  highest of rind and core [-], 0.8 to 1
 * @param input.pHError  [-], 0 or more; 0.1 where left out
 * @param input.waterActivityError  [-], 0 or more; 0.01 where left out
 * @param input.isSurfaceRipened  mould or smear on the rind
 * @returns whether growth must be reckoned with, the category and the line that decided
 * Valid: as `listeriaRuleValidity`. Uncertainty: the errors given; the EU text says "at most" where Codex says "below".
 * @throws InputError outside the range
 * @source Codex CAC/GL 61-2007 (as quoted, seen); EU 2073/2005 Annex I 1.3 (excerpt seen, wording from memory)
 */
export function listeriaVerdict(input: ListeriaCheese): ListeriaVerdict {
  const { temperatureC, pH, waterActivity, pHError = PH_ERROR, waterActivityError = WATER_ACTIVITY_ERROR } = input;
  requireWithin(listeriaRuleValidity, { temperatureC, pH, waterActivity });
  if (temperatureC <= FROZEN_C) return { canGrow: false, category: 'cannot-support', rule: 'frozen' };
  if (input.isSurfaceRipened === true) return { canGrow: true, category: 'supports', rule: 'surface-ripened' };
  const worst = listeriaLimitKernel({ pH: pH + pHError, waterActivity: waterActivity + waterActivityError });
  if (worst !== null) return { canGrow: false, category: 'cannot-support', rule: worst };
  const isAtLimit = listeriaLimitKernel({ pH, waterActivity }) !== null;
  return isAtLimit
    ? { canGrow: true, category: 'unknown', rule: 'doubt' }
    : { canGrow: true, category: 'supports', rule: 'none' };
}
