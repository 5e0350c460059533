/**
 * Why milk resists souring: the proton-carrying groups of casein, serum and colloidal calcium phosphate.
 * The same constants hold for milk, retentate, curd and washed curd; only the amounts differ.
 * Exact functions for tables and calculators; a table on a pH grid for loops that ask a million times.
 * Left out: ion pairs, calcium bound to citrate, the rise of pK with dilution (apparent pK at milk's ionic strength).
 */
import { InputError, outside, requireWithin, type Validity } from '../numbers/validity.ts';
import type { MilkComposition } from './milk.ts';

/** What buffers in a litre of milk. */
export type BufferComposition = Pick<
  MilkComposition,
  'caseinGPerL' | 'wheyProteinGPerL' | 'solublePhosphateMM' | 'citrateMM' | 'colloidalPhosphateMM'
>;

// Group contents [mmol/g]: counts from the casein sequences (26.5 Asp + Glu, 6.6 phosphoserine, 4.5 His in 23.3 kDa), from
// memory; apparent pK in milk, from memory, rounded, not adjusted to any pH curve.
const CASEIN_CARBOXYL = 1.14;
const CASEIN_PHOSPHOSERINE = 0.285;
const CASEIN_HISTIDINE = 0.193;
const WHEY_CARBOXYL = 1.1;
const WHEY_HISTIDINE = 0.12;
const PK_CARBOXYL_LOW = 4.05;
const PK_CARBOXYL_HIGH = 4.75;
const CARBOXYL_LOW_SHARE = 0.45;
const PK_PHOSPHOSERINE = 6.35;
const PK_HISTIDINE = 6.15;
const PK_PHOSPHATE = 6.6;
const PK_CITRATE_HIGH = 5.3;
const PK_CITRATE_LOW = 4.25;
/** Apparent pK of lactic acid, from memory. */
export const PK_LACTIC = 3.86;

/** Protons that a colloidal phosphate takes up as it dissolves, and gives back as it is titrated. */
export const PROTONS_PER_COLLOIDAL_PHOSPHATE = 1.31; // from Ca(HPO4)0.6(PO4)0.267 of the micelle (Wang, Holt, Nylander and Ma), summary seen
/** pH at which half the colloidal phosphate has taken up its protons in a warm, quick souring: fit to 16 published runs. */
export const COLLOIDAL_MIDPOINT_QUICK_PH = 5.2;
/** The same for milk at rest, cold or slow: from the partition of calcium and phosphate, from memory. */
export const COLLOIDAL_MIDPOINT_SLOW_PH = 5.5;
const COLLOIDAL_WIDTH_PH = 0.18; // our own fit

const LN10 = Math.LN10;

export const bufferValidity: Validity = {
  pH: { low: 3.5, high: 7.5, unit: 'pH', source: 'groups of milk that matter between sour and slightly alkaline' },
};

/** Share of a group that carries its proton at this pH: 1 / (1 + 10^(pH - pK)). */
export function protonatedFraction(at: { pH: number; pK: number }): number {
  return 1 / (1 + Math.exp(LN10 * (at.pH - at.pK)));
}

const x = (pH: number, pK: number): number => 1 / (1 + Math.exp(LN10 * (pH - pK)));
const beta = (pH: number, pK: number): number => {
  const share = x(pH, pK);
  return LN10 * share * (1 - share);
};
type GroupFunction = (pH: number, pK: number) => number;

const carboxyl = (pH: number, g: GroupFunction): number =>
  CARBOXYL_LOW_SHARE * g(pH, PK_CARBOXYL_LOW) + (1 - CARBOXYL_LOW_SHARE) * g(pH, PK_CARBOXYL_HIGH);

const caseinGroups = (pH: number, g: GroupFunction): number =>
  CASEIN_CARBOXYL * carboxyl(pH, g) +
  CASEIN_PHOSPHOSERINE * g(pH, PK_PHOSPHOSERINE) +
  CASEIN_HISTIDINE * g(pH, PK_HISTIDINE);

const serumGroups = (pH: number, g: GroupFunction, milk: BufferComposition): number =>
  milk.solublePhosphateMM * g(pH, PK_PHOSPHATE) +
  milk.citrateMM * (g(pH, PK_CITRATE_HIGH) + g(pH, PK_CITRATE_LOW)) +
  milk.wheyProteinGPerL * (WHEY_CARBOXYL * carboxyl(pH, g) + WHEY_HISTIDINE * g(pH, PK_HISTIDINE));

/** Share of the colloidal calcium phosphate that has dissolved, between 0 and 1: a logistic step of width 0.18 pH. */
export function colloidalDissolvedFraction(at: { pH: number; midpointPH: number }): number {
  return 1 / (1 + Math.exp((at.pH - at.midpointPH) / COLLOIDAL_WIDTH_PH));
}

export interface BufferInput {
  readonly composition: BufferComposition;
  readonly pH: number;
  /** Lactate already there [mmol/L of milk]; 0 by default. */
  readonly lactateMM?: number;
  /** `COLLOIDAL_MIDPOINT_QUICK_PH` (default) or `COLLOIDAL_MIDPOINT_SLOW_PH`. */
  readonly colloidalMidpointPH?: number;
}

/** Kernel of `boundProtonsMM`: no checks. */
export function boundProtonsKernel({ composition, pH, lactateMM, colloidalMidpointPH }: BufferInput): number {
  const midpointPH = colloidalMidpointPH ?? COLLOIDAL_MIDPOINT_QUICK_PH;
  return (
    composition.caseinGPerL * caseinGroups(pH, x) +
    serumGroups(pH, x, composition) +
    (lactateMM ?? 0) * x(pH, PK_LACTIC) +
    composition.colloidalPhosphateMM * PROTONS_PER_COLLOIDAL_PHOSPHATE * colloidalDissolvedFraction({ pH, midpointPH })
  );
}

/** Protons on the groups that leave with the whey [mmol/L of milk]; no lactate, no checks. Sources as `boundProtonsMM`. */
export const boundSerumProtonsKernel = (at: { composition: BufferComposition; pH: number }): number =>
  serumGroups(at.pH, x, at.composition);

/** Kernel of `bufferCapacityMMPerPH`: no checks. */
export function bufferCapacityKernel({ composition, pH, lactateMM, colloidalMidpointPH }: BufferInput): number {
  const dissolved = colloidalDissolvedFraction({ pH, midpointPH: colloidalMidpointPH ?? COLLOIDAL_MIDPOINT_QUICK_PH });
  return (
    composition.caseinGPerL * caseinGroups(pH, beta) +
    serumGroups(pH, beta, composition) +
    (lactateMM ?? 0) * beta(pH, PK_LACTIC) +
    (composition.colloidalPhosphateMM * PROTONS_PER_COLLOIDAL_PHOSPHATE * dissolved * (1 - dissolved)) /
      COLLOIDAL_WIDTH_PH
  );
}

/**
 * How many protons the milk holds at a pH; differences between two pH are what an acid has to bring.
 *
 * Sum over groups of content / (1 + 10^(pH - pK)), plus 1.31 per dissolved colloidal phosphate.
 *
 * @param input.composition  what buffers, per litre of milk
 * @param input.pH  [-], 3.5 to 7.5
 * @param input.lactateMM  lactate [mmol/L], 0 by default
 * @param input.colloidalMidpointPH  [-], 5.20 quick and warm (default), 5.50 at rest
 * @returns bound protons [mmol/L of milk]
 * Valid: as `bufferValidity`. Uncertainty: 10 % of a difference; below pH 4.6 perhaps 10 to 15 % too many.
 * @throws InputError outside pH 3.5 to 7.5
 * @source group counts and pK from memory; composition of the colloidal phosphate: Wang, Holt, Nylander and Ma, summary seen;
 * which groups matter: Upreti, Buehlmann and Metzger (2006), J. Dairy Sci. 89:938, abstract seen
 */
export function boundProtonsMM(input: BufferInput): number {
  requireWithin(bufferValidity, { pH: input.pH });
  return boundProtonsKernel(input);
}

/**
 * How much acid moves the pH by one unit: the slope of `boundProtonsMM`.
 *
 * @param input.composition  what buffers, per litre of milk
 * @param input.pH  [-], 3.5 to 7.5
 * @param input.lactateMM  lactate [mmol/L], 0 by default
 * @param input.colloidalMidpointPH  [-], 5.20 (default) or 5.50
 * @returns buffer capacity [mmol/(L pH)], cow's milk about 14 at pH 6.6 and 40 at 5.2
 * Valid: as `bufferValidity`. Uncertainty: 10 %; the peak is narrower and higher than titrations show.
 * @throws InputError outside pH 3.5 to 7.5
 * @source as `boundProtonsMM`
 */
export function bufferCapacityMMPerPH(input: BufferInput): number {
  requireWithin(bufferValidity, { pH: input.pH });
  return bufferCapacityKernel(input);
}

/** Kernel of `protonsToReachPH`: no checks. */
export function protonsToReachKernel(
  input: Omit<BufferInput, 'pH'> & { readonly fromPH: number; readonly toPH: number },
): number {
  return boundProtonsKernel({ ...input, pH: input.toPH }) - boundProtonsKernel({ ...input, pH: input.fromPH });
}

/**
 * Protons needed to take milk from one pH to another.
 *
 * @param input.composition  what buffers, per litre of milk
 * @param input.fromPH  [-], 3.5 to 7.5
 * @param input.toPH  [-], 3.5 to 7.5
 * @returns protons [mmol/L of milk], negative when the pH is to rise
 * Valid: as `bufferValidity`. Uncertainty: 10 %.
 * @throws InputError outside pH 3.5 to 7.5
 * @source as `boundProtonsMM`
 */
export function protonsToReachPH(
  input: Omit<BufferInput, 'pH'> & { readonly fromPH: number; readonly toPH: number },
): number {
  const problems = [
    ...outside(bufferValidity, { pH: input.fromPH }).map((problem) => ({ ...problem, field: 'fromPH' })),
    ...outside(bufferValidity, { pH: input.toPH }).map((problem) => ({ ...problem, field: 'toPH' })),
  ];
  if (problems.length > 0) throw new InputError(problems);
  return protonsToReachKernel(input);
}

/** First pH of the table. */
export const TABLE_LOW_PH = 3.5;
/** Last pH of the table; beyond either end the end's value holds. */
export const TABLE_HIGH_PH = 8.5;
/** Rows per pH unit: a step of 0.005 keeps every capacity within 0.01 mmol/(L pH) of the exact one. */
export const TABLE_ROWS_PER_PH = 200;
/** Columns of a row: capacities of casein, serum, colloidal phosphate and (per mmol) lactate; lactic share; serum protons. */
export const TABLE_COLUMN = {
  caseinCapacity: 0,
  serumCapacity: 1,
  colloidalCapacity: 2,
  lacticCapacity: 3,
  lacticProtonated: 4,
  serumProtons: 5,
} as const;
export const TABLE_STRIDE = Object.keys(TABLE_COLUMN).length;
export const TABLE_LAST_ROW = Math.round((TABLE_HIGH_PH - TABLE_LOW_PH) * TABLE_ROWS_PER_PH);

/** Buffering of one milk on a pH grid; rows of `TABLE_STRIDE` numbers, `TABLE_LAST_ROW + 1` rows. */
export interface BufferTable {
  readonly composition: BufferComposition;
  readonly rows: Float64Array;
}

/** Tabulates one milk: about a millisecond; do it once for a make, not once for a member. */
export function bufferTable(composition: BufferComposition): BufferTable {
  const rows = new Float64Array((TABLE_LAST_ROW + 1) * TABLE_STRIDE);
  for (let row = 0; row <= TABLE_LAST_ROW; row++) {
    const pH = TABLE_LOW_PH + row / TABLE_ROWS_PER_PH;
    const at = row * TABLE_STRIDE;
    const dissolved = colloidalDissolvedFraction({ pH, midpointPH: COLLOIDAL_MIDPOINT_QUICK_PH });
    rows[at] = composition.caseinGPerL * caseinGroups(pH, beta);
    rows[at + 1] = serumGroups(pH, beta, composition);
    rows[at + 2] =
      (composition.colloidalPhosphateMM * PROTONS_PER_COLLOIDAL_PHOSPHATE * dissolved * (1 - dissolved)) /
      COLLOIDAL_WIDTH_PH;
    rows[at + 3] = beta(pH, PK_LACTIC);
    rows[at + 4] = x(pH, PK_LACTIC);
    rows[at + 5] = serumGroups(pH, x, composition);
  }
  return { composition, rows };
}

/** One column of a buffer table at a pH, linear between rows. */
export function tableValue(at: {
  table: BufferTable;
  pH: number;
  column: (typeof TABLE_COLUMN)[keyof typeof TABLE_COLUMN];
}): number {
  const position = Math.min(Math.max((at.pH - TABLE_LOW_PH) * TABLE_ROWS_PER_PH, 0), TABLE_LAST_ROW - 1e-9);
  const row = Math.floor(position);
  const index = row * TABLE_STRIDE + at.column;
  const below = at.table.rows[index] ?? 0;
  return below + (position - row) * ((at.table.rows[index + TABLE_STRIDE] ?? 0) - below);
}

/** Protons held by so many litres of undiluted serum and so much lactate at a pH [mmol], from the table (kernel). */
export function serumProtonsMM(table: BufferTable, pH: number, serumL: number, lactateMM: number): number {
  return twoColumns(table, pH, TABLE_COLUMN.serumProtons, serumL, TABLE_COLUMN.lacticProtonated, lactateMM);
}

/** How much acid moves the same serum and lactate by one pH [mmol], from the table (kernel). */
export function serumCapacityMMPerPH(table: BufferTable, pH: number, serumL: number, lactateMM: number): number {
  return twoColumns(table, pH, TABLE_COLUMN.serumCapacity, serumL, TABLE_COLUMN.lacticCapacity, lactateMM);
}

/** Two columns in their amounts, linear between rows, with the place in the table sought once. */
function twoColumns(table: BufferTable, pH: number, a: number, ofA: number, b: number, ofB: number): number {
  const { rows } = table;
  const position = Math.min(Math.max((pH - TABLE_LOW_PH) * TABLE_ROWS_PER_PH, 0), TABLE_LAST_ROW - 1e-9);
  const row = Math.floor(position);
  const part = position - row;
  const at = row * TABLE_STRIDE;
  const next = at + TABLE_STRIDE;
  const first = (1 - part) * (rows[at + a] ?? 0) + part * (rows[next + a] ?? 0);
  const second = (1 - part) * (rows[at + b] ?? 0) + part * (rows[next + b] ?? 0);
  return ofA * first + ofB * second;
}
