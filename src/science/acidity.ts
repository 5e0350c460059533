/**
 * Titratable acidity: the scales of different countries, and what a souring milk titrates at.
 * Whey titrates lower than milk and says nothing certain about the curd: readings keep their sample (milk, whey, curd).
 */
import { InputError, outside, requireWithin, type Problem, type Validity } from '../numbers/validity.ts';

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
  return milk.startDornic + DORNIC_PER_MM * milk.lactateMM;
}
