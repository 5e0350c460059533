/**
 * Acid poured into milk: how much lactic, citric or acetic acid takes it to a pH, and where a dose takes it.
 * Each answer spans from quick and warm (the micelle's phosphate lags) to cold or slow (it has dissolved).
 * Left out: citrate pulling calcium out of the micelle (costs extra protons; inside the 15 % stated).
 */
import { rootBetween } from '../numbers/roots.ts';
import { InputError, outside, type Problem, type Validity } from '../numbers/validity.ts';
import {
  COLLOIDAL_MIDPOINT_QUICK_PH,
  COLLOIDAL_MIDPOINT_SLOW_PH,
  PK_LACTIC,
  protonatedFraction,
  protonsToReachKernel,
  TABLE_COLUMN,
  tableValue,
  type BufferComposition,
  type BufferTable,
} from './buffer.ts';

export const DIRECT_ACIDS = ['lactic', 'citric', 'citric-monohydrate', 'acetic'] as const;
export type DirectAcid = (typeof DIRECT_ACIDS)[number];

interface Acid {
  readonly gPerMol: number;
  readonly pKs: readonly number[];
}

// Apparent pK at the ionic strength of milk: from memory. Molar masses: standard atomic weights.
const ACIDS: Readonly<Record<DirectAcid, Acid>> = {
  lactic: { gPerMol: 90.08, pKs: [PK_LACTIC] },
  citric: { gPerMol: 192.12, pKs: [2.95, 4.35, 5.3] },
  'citric-monohydrate': { gPerMol: 210.14, pKs: [2.95, 4.35, 5.3] },
  acetic: { gPerMol: 60.05, pKs: [4.65] },
};

export const directAcidValidity: Validity = {
  fromPH: { low: 5, high: 7.2, unit: 'pH', source: 'fresh to half-soured milk' },
  toPH: { low: 4.2, high: 7, unit: 'pH', source: 'groups of milk; below pH 4.6 up to 15 % too much acid' },
  gPerL: { low: 0, high: 15, unit: 'g/L', source: 'more takes milk below the model (pH 4)' },
};

export interface AcidToPHInput {
  readonly composition: BufferComposition;
  readonly acid: DirectAcid;
  readonly fromPH: number;
  readonly toPH: number;
  readonly colloidalMidpointPH: number;
}

/** Molar mass as weighed out [g/mol]. */
export function acidGPerMol(acid: DirectAcid): number {
  return ACIDS[acid].gPerMol;
}

/** Protons one mmol of acid has given off at this pH. */
const protonsGiven = (acid: DirectAcid, pH: number): number => {
  let given = 0;
  for (const pK of ACIDS[acid].pKs) given += 1 - protonatedFraction({ pH, pK });
  return given;
};

/**
 * How much of one acid gives off as many protons as so much of another, in milk at one pH.
 * @param input.pH  of the milk once the acid is in; 4.2 to 7
 * @returns mass of the other acid for each gram of the first [g/g], both pure
 * @source as `acidToReachPH`
 */
export function acidForAcid(input: { readonly of: DirectAcid; readonly by: DirectAcid; readonly pH: number }): number {
  const { of, by, pH } = input;
  const given = (acid: DirectAcid): number => protonsGiven(acid, pH) / ACIDS[acid].gPerMol;
  return given(of) / given(by);
}

/** Kernel of `acidToReachPH` for one midpoint of the colloidal phosphate: no checks. Returns mmol/L. */
export function acidToReachKernel(input: AcidToPHInput): number {
  return protonsToReachKernel(input) / protonsGiven(input.acid, input.toPH);
}

/** An amount of acid: mmol and grams per litre of milk. */
export interface AcidAmount {
  readonly mmolPerL: number;
  readonly gPerL: number;
}

/**
 * How much acid takes milk to a pH. Add four fifths of it, stir, measure, then correct.
 *
 * Amount = (protons bound at the target - at the start) / protons one mmol of acid gives at the target.
 *
 * @param input.composition  what buffers, per litre of milk
 * @param input.acid  lactic, citric (anhydrous), citric-monohydrate or acetic
 * @param input.fromPH  [-], 5 to 7.2
 * @param input.toPH  [-], 4.2 to 7, below `fromPH`
 * @returns amounts for quick, warm souring and for slow, cold souring (milk takes more)
 * Valid: as `directAcidValidity`. Uncertainty: 15 % (standard deviation), beside the span from quick to slow.
 * @throws InputError naming every field that does not fit
 * @source groups and pK from memory; kitchen rule of about 1.6 g/L citric acid for stretched curd, common practice (no source)
 */
export function acidToReachPH(input: Omit<AcidToPHInput, 'colloidalMidpointPH'>): {
  readonly quick: AcidAmount;
  readonly slow: AcidAmount;
} {
  const problems: Problem[] = outside(directAcidValidity, { fromPH: input.fromPH, toPH: input.toPH });
  if (problems.length === 0 && input.toPH > input.fromPH) {
    problems.push({
      code: 'contradiction',
      field: 'toPH',
      value: input.toPH,
      unit: 'pH',
      expected: `at most the starting pH (${input.fromPH})`,
      remedy: 'Acid only lowers the pH; give a lower target.',
    });
  }
  if (problems.length > 0) throw new InputError(problems);
  const amount = (colloidalMidpointPH: number): AcidAmount => {
    const mmolPerL = acidToReachKernel({ ...input, colloidalMidpointPH });
    return { mmolPerL, gPerL: (mmolPerL * ACIDS[input.acid].gPerMol) / 1000 };
  };
  return { quick: amount(COLLOIDAL_MIDPOINT_QUICK_PH), slow: amount(COLLOIDAL_MIDPOINT_SLOW_PH) };
}

const SEARCH_LOW_PH = 3; // below what 15 g/L of any of these acids reaches

/**
 * Where a dose of acid takes the milk.
 *
 * Solves acid given off = protons bound for the pH.
 *
 * @param input.composition  what buffers, per litre of milk
 * @param input.acid  lactic, citric (anhydrous), citric-monohydrate or acetic
 * @param input.fromPH  [-], 5 to 7.2
 * @param input.gPerL  acid per litre of milk [g/L], 0 to 15
 * @returns pH in quick, warm souring and in slow, cold souring (between 4.6 and 6 the latter stays higher)
 * Valid: as `directAcidValidity`. Uncertainty: 15 % of the dose, which is 0.1 to 0.2 pH.
 * @throws InputError naming every field that does not fit
 * @source as `acidToReachPH`
 */
export function pHAfterAcid(input: {
  readonly composition: BufferComposition;
  readonly acid: DirectAcid;
  readonly fromPH: number;
  readonly gPerL: number;
}): { readonly quick: number; readonly slow: number } {
  const problems = outside(directAcidValidity, { fromPH: input.fromPH, gPerL: input.gPerL });
  if (problems.length > 0) throw new InputError(problems);
  const mmolPerL = (input.gPerL * 1000) / ACIDS[input.acid].gPerMol;
  const reached = (colloidalMidpointPH: number): number =>
    mmolPerL === 0
      ? input.fromPH
      : rootBetween({
          f: (toPH) =>
            protonsToReachKernel({ ...input, toPH, colloidalMidpointPH }) - mmolPerL * protonsGiven(input.acid, toPH),
          low: SEARCH_LOW_PH,
          high: input.fromPH,
          tolerance: 1e-9,
        });
  return { quick: reached(COLLOIDAL_MIDPOINT_QUICK_PH), slow: reached(COLLOIDAL_MIDPOINT_SLOW_PH) };
}

const ACID_STEP_PH = 0.01; // fine enough for 0.001 pH with the straight line at the end; our own choice
const LOWEST_PH = 3.55; // the table's end

/**
 * Where a dose of acid takes one member's milk or whey, from its buffer table (kernel, unchecked): quick and warm.
 *
 * Goes down in steps of 0.01 pH until what is bound on the way is what the acid has given off there.
 *
 * @param input.table  buffering of what is in the pot
 * @param input.bufferFactor  factor on every capacity [-]
 * @param input.fromPH  before the acid
 * @param input.mmolPerL  acid [mmol per L of what is in the pot]
 * @returns pH after stirring
 * Valid: as `pHAfterAcid`. Uncertainty: as there.
 * @source as `acidToReachPH`
 */
export function pHAfterDoseKernel(input: {
  readonly table: BufferTable;
  readonly bufferFactor: number;
  readonly fromPH: number;
  readonly acid: DirectAcid;
  readonly mmolPerL: number;
}): number {
  const { table, bufferFactor, acid, mmolPerL } = input;
  const capacity = (pH: number): number =>
    bufferFactor *
    (tableValue({ table, pH, column: TABLE_COLUMN.caseinCapacity }) +
      tableValue({ table, pH, column: TABLE_COLUMN.serumCapacity }) +
      tableValue({ table, pH, column: TABLE_COLUMN.colloidalCapacity }));
  let pH = input.fromPH;
  let bound = 0;
  let before = mmolPerL * protonsGiven(acid, pH);
  while (pH > LOWEST_PH) {
    const next = pH - ACID_STEP_PH;
    bound += capacity(pH - ACID_STEP_PH / 2) * ACID_STEP_PH;
    const unbound = mmolPerL * protonsGiven(acid, next) - bound;
    if (unbound <= 0) return pH - (ACID_STEP_PH * before) / (before - unbound);
    before = unbound;
    pH = next;
  }
  return pH;
}
