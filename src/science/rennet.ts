/**
 * What is in the rennet bottle, and how much of it to take: strength (or what is likely when nobody knows), age, mL,
 * drops and the water to dilute it in. Activity is in international milk clotting units, IMCU. Left out: chlorine, which
 * weakens rennet within minutes by one teaching note (a warning, not a correction).
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';

export const RENNET_FORMS = ['liquid', 'powder', 'tablet'] as const;
export type RennetForm = (typeof RENNET_FORMS)[number];

/**
 * Strength when the label does not say: IMCU per mL (liquid), per g (powder), per tablet. Ln-normal by halves: the
 * median is the stated default, and 5 and 95 % of lots lie below `low` and above `high`.
 */
export interface StrengthPrior {
  readonly low: number;
  readonly median: number;
  readonly high: number;
  readonly unit: 'IMCU/mL' | 'IMCU/g' | 'IMCU/tablet';
  readonly source: string;
}

export const RENNET_STRENGTH_PRIORS: Readonly<Record<RennetForm, StrengthPrior>> = {
  liquid: { low: 100, median: 200, high: 280, unit: 'IMCU/mL', source: 'common practice (no source)' },
  powder: { low: 1200, median: 2000, high: 2400, unit: 'IMCU/g', source: 'from memory' },
  tablet: { low: 700, median: 1300, high: 2200, unit: 'IMCU/tablet', source: 'from memory' },
};

const Z95 = 1.645; // standard normal, 95 %
const COLD_LOSS_PER_MONTH = 0.01; // at 4 °C, from memory; only shelf lives were found
const ROOM_LOSS_PER_MONTH = 0.025; // at 20 °C, 0.02-0.03, from memory
const COLD_C = 4; // with the line above
const ROOM_C = 20; // with the line above
/** Drops of a thin liquid from an ordinary dropper, until the maker has counted those of this bottle: USP 32 <1101> prints 20 of water; tips and glycerol move it. */
export const DROPS_PER_ML = { low: 10, typical: 20, high: 30 } as const; // 20 ± 10: our own reading of the same
/** Parts of cold water to one of rennet: 40 (Thom and Fisk 1918), 10 (The Story of Milk, p. 119), both seen; 20 is our own middle. */
export const DILUTION_PARTS = { low: 10, typical: 20, high: 40 } as const;
const SOLID_DILUTION_ML = 50; // a small cup for powder or tablets: common practice (no source)
export const DEFAULT_DOSE_IMCU_PER_L = 45; // 40-55, our own choice beside a producer's 52 IMCU/kg and 50 from single strength
/** Above this share of the dose in one drop, do not count drops (our own rule). */
export const COARSEST_DROP_FRACTION = 0.05;

export const rennetValidity: Validity = {
  milkL: { low: 0.05, high: 2000, unit: 'L', source: 'kitchen test to small dairy (our own bounds)' },
  doseImcuPerL: {
    low: 1,
    high: 300,
    unit: 'IMCU/L',
    source: 'a fifth of the usual dose for lactic cheese to quick sets',
  },
  strengthImcu: {
    low: 5,
    high: 5000,
    unit: 'IMCU/mL, /g or /tablet',
    source: 'weak bottle to strong powder (our own bounds)',
  },
  monthsStored: { low: 0, high: 60, unit: 'months', source: 'shelf lives are 7 to 12 months; widened by us' },
  storedC: { low: -20, high: 35, unit: '°C', source: 'freezer to a hot kitchen (our own bounds)' },
  dropsPerMl: { low: 5, high: 80, unit: 'drops/mL', source: 'Eschbaum 1895: 8 to 75 drops of water by tip' },
};

/**
 * Strength of an unknown lot at a standard normal deviate (kernel, unchecked): the simulator draws it, bands read it.
 *
 * @param input.form  liquid, powder or tablet
 * @param input.z  standard normal deviate [-]
 * @returns strength as bought [IMCU per mL, g or tablet]
 * @source common practice (no source); powder and tablet from memory
 */
export function rennetStrengthAt(input: { form: RennetForm; z: number }): number {
  const { low, median, high } = RENNET_STRENGTH_PRIORS[input.form];
  const lnSd = input.z < 0 ? Math.log(median / low) / Z95 : Math.log(high / median) / Z95;
  return median * Math.exp(lnSd * input.z);
}

/**
 * Share of its strength that rennet keeps in storage (kernel, unchecked).
 *
 * exp(-rate * months); rate 0.01 a month at 4 °C and 0.025 at 20 °C, exponential between and beyond. From memory: no
 * measured rate was found; the maker's own flocculation record corrects it.
 *
 * @param input.months  since it was made or tested [months]
 * @param input.temperatureC  where it stood [°C]
 * @returns remaining share [-], 0 to 1
 * @source from memory, not seen
 */
export function rennetKeptFraction(input: { months: number; temperatureC: number }): number {
  const rate =
    COLD_LOSS_PER_MONTH *
    (ROOM_LOSS_PER_MONTH / COLD_LOSS_PER_MONTH) ** ((input.temperatureC - COLD_C) / (ROOM_C - COLD_C));
  return Math.exp(-rate * input.months);
}

export interface RennetDoseInput {
  readonly milkL: number;
  /** Wanted activity in the milk [IMCU/L]. */
  readonly doseImcuPerL?: number;
  /** As on the label [IMCU per mL, g or tablet]; left out = unknown. */
  readonly strengthImcu?: number;
  readonly form?: RennetForm;
  readonly monthsStored?: number;
  readonly storedC?: number;
  readonly dropsPerMl?: number;
}

export interface Span {
  readonly p5: number;
  readonly p95: number;
}

export interface RennetDose {
  /** mL, g or tablets, as the form has it. */
  readonly amount: number;
  readonly unit: 'mL' | 'g' | 'tablet';
  /** Of a liquid only. */
  readonly drops: number | null;
  readonly dilutionWaterMl: number;
  readonly doseImcuPerL: number;
  /** Strength now, after storage [IMCU per unit]. */
  readonly strengthNowImcu: number;
  readonly strengthKnown: boolean;
  /** What would be the right amount if the lot were strong (p5) or weak (p95); equal where strength is known. */
  readonly amountSpan: Span;
  readonly dropsSpan: Span | null;
  /** What the milk really gets when `amount` is taken. */
  readonly doseSpan: Span;
  /** Share of the dose in one drop; null where there are none. */
  readonly dropFraction: number | null;
}

/**
 * How much rennet to take, with the span that an unknown strength leaves.
 *
 * amount = dose * milk / (strength * exp(-rate * months)). Dilution: 20 parts of cold, chlorine-free water.
 *
 * @param input.milkL  [L], 0.05 to 2000
 * @param input.doseImcuPerL  [IMCU/L], 1 to 300; default 45
 * @param input.strengthImcu  [IMCU per mL, g or tablet], 5 to 5000; unknown: the prior of the form
 * @param input.form  liquid (default), powder or tablet
 * @param input.monthsStored  [months], 0 to 60; default 0
 * @param input.storedC  [°C], -20 to 35; default 4
 * @param input.dropsPerMl  counted for this bottle [drops/mL], 5 to 80; default 20, 10 to 30
 * @returns amount, drops, water, true dose and spans (90 %)
 * Valid: as `rennetValidity`. Uncertainty: strength as the prior says; drops by half until counted.
 * @throws InputError naming every field that does not fit
 * @source 1. Thom and Fisk (1918), dilution, seen. 2. USP 32 <1101>, drops, seen. 3. storage loss from memory, not seen.
 */
export function rennetDose(input: RennetDoseInput): RennetDose {
  const form = input.form ?? 'liquid';
  const doseImcuPerL = input.doseImcuPerL ?? DEFAULT_DOSE_IMCU_PER_L;
  const months = input.monthsStored ?? 0;
  const temperatureC = input.storedC ?? COLD_C;
  requireWithin(rennetValidity, {
    milkL: input.milkL,
    doseImcuPerL,
    strengthImcu: input.strengthImcu,
    monthsStored: months,
    storedC: temperatureC,
    dropsPerMl: input.dropsPerMl,
  });
  const prior = RENNET_STRENGTH_PRIORS[form];
  const kept = rennetKeptFraction({ months, temperatureC });
  const known = input.strengthImcu;
  const strengthNow = (known ?? prior.median) * kept;
  const weak = (known ?? prior.low) * kept;
  const strong = (known ?? prior.high) * kept;
  const wanted = doseImcuPerL * input.milkL;
  const amount = wanted / strengthNow;
  const amountSpan = { p5: wanted / strong, p95: wanted / weak };
  const counted = input.dropsPerMl;
  const dropsPerMl = counted ?? DROPS_PER_ML.typical;
  const isLiquid = form === 'liquid';
  return {
    amount,
    unit: isLiquid ? 'mL' : form === 'powder' ? 'g' : 'tablet',
    drops: isLiquid ? amount * dropsPerMl : null,
    dilutionWaterMl: isLiquid ? amount * DILUTION_PARTS.typical : SOLID_DILUTION_ML,
    doseImcuPerL,
    strengthNowImcu: strengthNow,
    strengthKnown: known !== undefined,
    amountSpan,
    dropsSpan: isLiquid
      ? {
          p5: amountSpan.p5 * (counted ?? DROPS_PER_ML.low),
          p95: amountSpan.p95 * (counted ?? DROPS_PER_ML.high),
        }
      : null,
    doseSpan: { p5: (amount * weak) / input.milkL, p95: (amount * strong) / input.milkL },
    dropFraction: isLiquid ? 1 / (amount * dropsPerMl) : null,
  };
}
