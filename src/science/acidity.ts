/**
 * Titratable acidity: the scales of different countries, and what a souring milk titrates at.
 * Whey titrates lower than milk and says nothing certain about the curd: readings keep their sample (milk, whey, curd).
 */
import { InputError, outside, requireWithin, type Problem, type Validity } from '../numbers/validity.ts';
import {
  boundSerumProtonsKernel,
  PK_LACTIC,
  PROTONS_PER_COLLOIDAL_PHOSPHATE,
  protonatedFraction,
  type BufferComposition,
} from './buffer.ts';
import type { MilkSpecies } from './milk.ts';

export const ACIDITY_UNITS = ['gLacticPerL', 'dornic', 'soxhletHenkel', 'thorner', 'percentLactic'] as const;
export type AcidityUnit = (typeof ACIDITY_UNITS)[number];

// g/L of lactic acid in one unit: N/9, N/4 and N/10 alkali on 100 mL (a French encyclopaedia and a Swiss cheese chemist's
// page, both seen); a percent counts 10 g per litre of milk, as the tests do.
const GRAMS_PER_UNIT: Readonly<Record<AcidityUnit, number>> = {
  gLacticPerL: 1,
  dornic: 0.1,
  soxhletHenkel: 0.225,
  thorner: 0.09,
  percentLactic: 10,
};

export const acidityValidity: Validity = {
  gLacticPerL: { low: 0, high: 20, unit: 'g/L', source: 'sweet whey to the sourest whey starter' },
};

/** Titratable acidity in every scale at once. */
export type AcidityScales = Readonly<Record<AcidityUnit, number>>;

/** Kernel of `acidityScales`: no checks. */
export function acidityScalesKernel(given: { readonly unit: AcidityUnit; readonly value: number }): AcidityScales {
  const grams = given.value * GRAMS_PER_UNIT[given.unit];
  return {
    gLacticPerL: grams,
    dornic: grams / GRAMS_PER_UNIT.dornic,
    soxhletHenkel: grams / GRAMS_PER_UNIT.soxhletHenkel,
    thorner: grams / GRAMS_PER_UNIT.thorner,
    percentLactic: grams / GRAMS_PER_UNIT.percentLactic,
  };
}

/**
 * One reading of titratable acidity in every scale.
 *
 * 1 °SH = 2.25 °D = 2.5 °Th; 1 °D = 0.1 g/L lactic acid; 1 °Th = 1 mmol/L; 1 % = 100 °D.
 *
 * @param given.unit  gLacticPerL, dornic, soxhletHenkel, thorner or percentLactic
 * @param given.value  the reading in that unit, 0 to 20 g/L of lactic acid
 * @returns the same acidity in all five
 * Valid: as `acidityValidity`. Uncertainty: none of its own (definitions); a titration is good to 0.5 °D.
 * @throws InputError outside 0 to 20 g/L
 * @source definitions of the scales, seen at second hand
 * @example acidityScales({ unit: 'dornic', value: 18 }).soxhletHenkel // 8
 */
export function acidityScales(given: { readonly unit: AcidityUnit; readonly value: number }): AcidityScales {
  const scales = acidityScalesKernel(given);
  const perUnit = GRAMS_PER_UNIT[given.unit];
  const problems: Problem[] = outside(acidityValidity, { gLacticPerL: scales.gLacticPerL }).map((problem) => ({
    ...problem,
    field: given.unit,
    value: given.value,
    unit: given.unit,
    expected: `0 to ${(acidityValidity['gLacticPerL']?.high ?? 0) / perUnit} ${given.unit}`,
    remedy: 'Check the reading and its scale.',
  }));
  if (problems.length > 0) throw new InputError(problems);
  return scales;
}

const DORNIC_PER_MM = 0.9; // fermenting milk gains nine tenths of a degree for each mmol/L of lactate: our own, from published pairs

export const milkAcidityValidity: Validity = {
  startDornic: { low: 10, high: 30, unit: '°D', source: 'fresh milk 12 to 22 °D, dairy pages seen' },
  lactateMM: { low: 0, high: 120, unit: 'mmol/L', source: 'fresh milk to yoghurt' },
};

/** Kernel of `milkAcidityDornic`: no checks. */
export const milkAcidityKernel = (milk: { readonly startDornic: number; readonly lactateMM: number }): number =>
  milk.startDornic + DORNIC_PER_MM * milk.lactateMM;

/**
 * Titratable acidity of souring milk (not of whey): what fresh milk titrates, plus its lactate.
 *
 * °D = start + 0.9 x lactate [mmol/L].
 *
 * @param milk.startDornic  of the fresh milk [°D], 10 to 30; cow 13 to 18, goat 12 to 18, sheep 18 to 22
 * @param milk.lactateMM  lactate added by the culture [mmol/L], 0 to 120
 * @returns titratable acidity [°D]
 * Valid: as `milkAcidityValidity`. Uncertainty: 10 %; below pH 4.6 up to 15 % too high.
 * @throws InputError outside the ranges
 * @source published pH and acidity pairs of yoghurt and fermented milk, tables seen; factor our own
 */
export function milkAcidityDornic(milk: { readonly startDornic: number; readonly lactateMM: number }): number {
  requireWithin(milkAcidityValidity, { ...milk });
  return milkAcidityKernel(milk);
}

/** What fresh milk titrates [°D]: the middle of the ranges of dairy pages seen, each read as nine milks in ten; buffalo from memory. */
export const FRESH_ACIDITY_D: Readonly<Record<MilkSpecies, { readonly mean: number; readonly sd: number }>> = {
  cow: { mean: 15.5, sd: 1.5 },
  goat: { mean: 15, sd: 1.8 },
  sheep: { mean: 20, sd: 1.2 },
  buffalo: { mean: 16.5, sd: 2 },
};

/** Sweet whey against the milk it came from: about 11 °D from milk of 12 to 18, a chemistry forum seen; 0.14 % from milk of 0.2 in old Cheddar sheets. */
const SWEET_WHEY_SHARE = 0.7;

/** Whey or curd serum, as far as its titration goes. */
export interface SerumAcidityInput {
  /** Of the fresh milk [°D]. */
  readonly startDornic: number;
  readonly composition: BufferComposition;
  readonly startPH: number;
  readonly pH: number;
  /** Lactate in a litre of this whey or serum [mmol/L]. */
  readonly lactateMM: number;
  /** Serum in it that is not wash water, 0 to 1. */
  readonly strength: number;
  /** Colloidal phosphate that came into it from the curd [mmol/L of serum]: 0 for the whey in the vat. */
  readonly dissolvedPhosphateMM: number;
}

export const serumAcidityValidity: Validity = {
  startDornic: { low: 10, high: 30, unit: '°D', source: 'fresh milk 12 to 22 °D, dairy pages seen' },
  startPH: { low: 6, high: 7, unit: 'pH', source: 'fresh to slightly soured milk (our own bounds)' },
  pH: { low: 4, high: 7, unit: 'pH', source: 'sweet whey to the whey of soured curd' },
  lactateMM: { low: 0, high: 300, unit: 'mmol/L', source: 'fresh milk to the serum of milled curd' },
  strength: { low: 0, high: 1, unit: '-', source: 'wash water to undiluted serum' },
  dissolvedPhosphateMM: {
    low: 0,
    high: 150,
    unit: 'mmol/L',
    source: 'all the colloidal phosphate in a tenth of the milk',
  },
};

/** Kernel of `serumAcidityDornic`: no checks. */
export function serumAcidityKernel(serum: SerumAcidityInput): number {
  const { composition } = serum;
  const taken =
    boundSerumProtonsKernel({ composition, pH: serum.pH }) -
    boundSerumProtonsKernel({ composition, pH: serum.startPH });
  const acid =
    serum.lactateMM * protonatedFraction({ pH: serum.pH, pK: PK_LACTIC }) +
    PROTONS_PER_COLLOIDAL_PHOSPHATE * serum.dissolvedPhosphateMM;
  return serum.strength * (SWEET_WHEY_SHARE * serum.startDornic + DORNIC_PER_MM * taken) + DORNIC_PER_MM * acid;
}

/**
 * Titratable acidity of whey, or of the serum that runs from drained curd. The casein's acid stays in the curd, so whey
 * titrates lower than its milk; dissolved calcium phosphate makes the serum of sour curd titrate much higher.
 *
 * °D = strength x (0.7 start + 0.9 protons taken by the serum's groups) + 0.9 (lactic acid undissociated + 1.31 phosphate dissolved).
 *
 * @param serum.startDornic  of the fresh milk [°D], 10 to 30
 * @param serum.composition  what buffers in the milk, per litre
 * @param serum.startPH  of the fresh milk [-], 6 to 7
 * @param serum.pH  of the whey or serum [-], 4 to 7
 * @param serum.lactateMM  in a litre of it [mmol/L], 0 to 300
 * @param serum.strength  its share that is serum, not wash water [-], 0 to 1
 * @param serum.dissolvedPhosphateMM  that came from the curd's colloidal phosphate [mmol/L], 0 to 150
 * @returns titratable acidity [°D]
 * Valid: as `serumAcidityValidity`. Uncertainty: 10 % of sweet whey and 15 % of its rise; serum of drained curd, whose phosphate
 * dissolves slowly, 60 %.
 * @throws InputError outside the ranges
 * @source groups as in `buffer.ts`; sweet whey's share our own, from pages seen; checked against goat curd serum of 50 to 65 °D
 */
export function serumAcidityDornic(serum: SerumAcidityInput): number {
  const { startDornic, startPH, pH, lactateMM, strength, dissolvedPhosphateMM } = serum;
  requireWithin(serumAcidityValidity, { startDornic, startPH, pH, lactateMM, strength, dissolvedPhosphateMM });
  return serumAcidityKernel(serum);
}
