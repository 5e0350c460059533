/**
 * What happens to the acid state in a moment: dosing, cutting, whey leaving the curd, washing, draining.
 * Volumes are solvent water in litres per litre of original milk and belong to the moisture model; the caller keeps them.
 * All functions change `state` in place; `offset` is where the eleven numbers of `ACID_STATE` start.
 */
import { ACID_STATE, type AcidParameters } from './acidification.ts';
import { serumCapacityMMPerPH, serumProtonsMM } from './buffer.ts';

const S = ACID_STATE;

const CELLS_KEPT_AT_CUTTING = 0.9; // 0.80 to 0.95, retention by the gel, from memory
const STARTER_CELLS_PER_L = 1e12; // as `initialCellsPerL`
const STARTER_PROTONS_PER_CAPACITY_PH = 52 / 14; // ripe starter brings 52 mmol/L of protons to milk of 14 mmol/(L pH): our own
const STARTER_LACTATE_MM = 61; // lactic acid of milk soured to pH 4.6, from the buffer model

/** What the milk holds when the culture goes in. */
export interface AcidStart {
  readonly cellsPerL: number;
  /** h0, the work to do before full speed; see `lagOf`. */
  readonly lagWork: number;
  readonly pH: number;
  readonly lactoseMM: number;
  /** Brought by a bulk starter; 0 by default. */
  readonly lactateMM?: number;
  /** Of the serum, where water went in before the culture; 1 by default. */
  readonly strength?: number;
}

/** Fills the state for milk that has just got its culture. */
export function startAcid(state: Float64Array, start: AcidStart, offset = 0): void {
  state[offset + S.cellsPerL] = start.cellsPerL;
  // Baranyi and Roberts (1994): ln Q = -ln(exp(h0) - 1)
  state[offset + S.lnQ] = -Math.log(Math.expm1(Math.max(start.lagWork, 1e-3)));
  state[offset + S.curdPH] = start.pH;
  state[offset + S.wheyPH] = start.pH;
  state[offset + S.curdLactoseMM] = start.lactoseMM;
  state[offset + S.wheyLactoseMM] = 0;
  state[offset + S.curdLactateMM] = start.lactateMM ?? 0;
  state[offset + S.wheyLactateMM] = 0;
  state[offset + S.curdStrength] = start.strength ?? 1;
  state[offset + S.wheyStrength] = start.strength ?? 1;
  state[offset + S.wheyCellsPerL] = 0;
}

/** A ripe starter of this same milk, or of its serum. */
export interface Starter {
  /** Of the milk's volume. */
  readonly percentBulk: number;
  /** The milk's lactose before any souring; what the starter's lactate was made of is gone from it. */
  readonly milkLactoseMM: number;
  readonly lactatePerLactose: number;
}

/**
 * Cells, lactate and acid that a ripe bulk starter brings: about 0.04 pH for each percent. `share` is the starter's in milk
 * and starter together; lactose and lactate are afterwards per litre of both.
 */
export function addBulkStarter(state: Float64Array, starter: Starter & { readonly share: number }, offset = 0): void {
  const keep = 1 - starter.share;
  bring(state, starter, offset);
  for (const place of [S.curdLactoseMM, S.curdLactateMM]) state[offset + place] = keep * (state[offset + place] ?? 0);
  addStarterLiquid(state, starter, starter.share, offset);
}

/**
 * Cells, lactate and acid that a whey starter brings. `serumL` is its volume, in litres of the milk's serum per litre of
 * milk; the caller adds it to the curd's.
 */
export function addWheyStarter(state: Float64Array, starter: Starter & { readonly serumL: number }, offset = 0): void {
  bring(state, starter, offset);
  addStarterLiquid(state, starter, starter.serumL, offset);
}

function bring(state: Float64Array, starter: Starter, offset: number): void {
  state[offset + S.cellsPerL] = (state[offset + S.cellsPerL] ?? 0) + (starter.percentBulk / 100) * STARTER_CELLS_PER_L;
  state[offset + S.curdPH] = bulkStarterPH({ pH: state[offset + S.curdPH] ?? 0, ...starter });
}

function addStarterLiquid(state: Float64Array, starter: Starter, litres: number, offset: number): void {
  const lactoseMM = starter.milkLactoseMM - STARTER_LACTATE_MM / starter.lactatePerLactose;
  state[offset + S.curdLactoseMM] = (state[offset + S.curdLactoseMM] ?? 0) + litres * lactoseMM;
  state[offset + S.curdLactateMM] = (state[offset + S.curdLactateMM] ?? 0) + litres * STARTER_LACTATE_MM;
}

/** Lactate that a bulk starter brings [mmol/L of milk]. */
export function bulkStarterLactateMM(starter: { readonly percentBulk: number }): number {
  return (starter.percentBulk / 100) * STARTER_LACTATE_MM;
}

/** pH of milk right after a bulk starter went in. */
export function bulkStarterPH(milk: { readonly pH: number; readonly percentBulk: number }): number {
  return milk.pH - (milk.percentBulk / 100) * STARTER_PROTONS_PER_CAPACITY_PH;
}

/** Cutting: curd and whey part ways; most cells stay in the curd. No whey is free yet. */
export function splitAtCutting(
  state: Float64Array,
  cut: { readonly cellsKeptFraction?: number } = {},
  offset = 0,
): void {
  const kept = cut.cellsKeptFraction ?? CELLS_KEPT_AT_CUTTING;
  const cells = state[offset + S.cellsPerL] ?? 0;
  state[offset + S.wheyCellsPerL] = (1 - kept) * cells;
  state[offset + S.cellsPerL] = kept * cells;
  state[offset + S.wheyPH] = state[offset + S.curdPH] ?? 0;
  state[offset + S.wheyLactoseMM] = 0;
  state[offset + S.wheyLactateMM] = 0;
  state[offset + S.wheyStrength] = state[offset + S.curdStrength] ?? 1;
}

export interface Expulsion {
  /** Before the expulsion. */
  readonly curdSerumL: number;
  /** Before the expulsion; 0 for drained curd, whose serum is lost. */
  readonly wheyL: number;
  /** Serum leaving the curd, less than `curdSerumL`; below 0 where it turns out never to have left. */
  readonly expelledL: number;
  readonly drained: boolean;
}

/**
 * Serum leaves the curd and takes its solutes along at the curd's own concentration and pH: amounts change, the curd's pH
 * does not. In the vat it mixes with the whey; the whey's pH follows from the protons of both.
 */
export function expelSerum(state: Float64Array, parameters: AcidParameters, out: Expulsion, offset = 0): void {
  if (out.expelledL === 0) return;
  const share = out.expelledL / out.curdSerumL;
  const lactose = state[offset + S.curdLactoseMM] ?? 0;
  const lactate = state[offset + S.curdLactateMM] ?? 0;
  if (!out.drained) {
    const table = parameters.buffer;
    const curdPH = state[offset + S.curdPH] ?? 0;
    const curdStrength = state[offset + S.curdStrength] ?? 1;
    const wheyPH = state[offset + S.wheyPH] ?? curdPH;
    const wheyStrength = state[offset + S.wheyStrength] ?? 1;
    const wheyLactate = state[offset + S.wheyLactateMM] ?? 0;
    const strong = wheyStrength * out.wheyL;
    const serum = strong + curdStrength * out.expelledL; // litres of undiluted serum in the whey afterwards
    const mixedLactate = wheyLactate + share * lactate;
    if (Math.abs(curdPH - wheyPH) < 1e-6 || out.wheyL <= 1e-9) {
      state[offset + S.wheyPH] = curdPH;
    } else {
      const protons =
        serumProtonsMM(table, wheyPH, strong, wheyLactate) +
        serumProtonsMM(table, curdPH, curdStrength * out.expelledL, share * lactate);
      // One Newton step from the mean of the two pH is within 0.002 of the answer for the small expulsions of one step.
      const guess = (wheyPH * strong + curdPH * curdStrength * out.expelledL) / serum;
      const held = serumProtonsMM(table, guess, serum, mixedLactate);
      const capacity = serumCapacityMMPerPH(table, guess, serum, mixedLactate);
      state[offset + S.wheyPH] = guess - (protons - held) / Math.max(capacity, 1e-9);
    }
    state[offset + S.wheyLactoseMM] = (state[offset + S.wheyLactoseMM] ?? 0) + share * lactose;
    state[offset + S.wheyLactateMM] = mixedLactate;
    state[offset + S.wheyStrength] = serum / (out.wheyL + out.expelledL);
  }
  state[offset + S.curdLactoseMM] = (1 - share) * lactose;
  state[offset + S.curdLactateMM] = (1 - share) * lactate;
}

/**
 * Draws whey and pours water: lactose, lactate and free cells go with the whey, the rest is diluted. The curd follows
 * through the exchange. Returns the whey's new volume [L per L of milk].
 */
export function washWhey(
  state: Float64Array,
  wash: { readonly wheyL: number; readonly drawnFraction: number; readonly waterL: number },
  offset = 0,
): number {
  const keep = 1 - wash.drawnFraction;
  for (const place of [S.wheyLactoseMM, S.wheyLactateMM, S.wheyCellsPerL]) {
    state[offset + place] = keep * (state[offset + place] ?? 0);
  }
  const left = keep * wash.wheyL;
  const volume = left + wash.waterL;
  if (volume > 0) state[offset + S.wheyStrength] = ((state[offset + S.wheyStrength] ?? 1) * left) / volume;
  return volume;
}

/** The whey is gone, with all that was in it; the curd keeps its pH. */
export function drainWhey(state: Float64Array, offset = 0): void {
  for (const place of [S.wheyLactoseMM, S.wheyLactateMM, S.wheyCellsPerL]) state[offset + place] = 0;
  state[offset + S.wheyStrength] = state[offset + S.curdStrength] ?? 1;
  state[offset + S.wheyPH] = state[offset + S.curdPH] ?? 0;
}
