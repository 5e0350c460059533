import { ACID_STATE_SIZE } from '../science/acidification.ts';
import { DRAWN_SIZE } from './contents.ts';
import type { Vat } from './vat-state.ts';

/** What a step is redone from when an end condition falls inside it. */
export interface Kept {
  readonly acid: Float64Array;
  /** Drained curd alone changes it. */
  readonly drawn: Float64Array;
  minute: number;
  temperatureC: number;
  wheyFraction: number;
  clotProgress: number;
  flocculationMin: number;
  staphLogs: number;
  minutesToPH54: number;
  wheyL: number;
  curdSerumL: number;
  rennetImcuPerL: number;
  evaporatedKg: number;
  heatCapacityKJPerK: number;
}

export function emptyKept(): Kept {
  return {
    acid: new Float64Array(ACID_STATE_SIZE),
    drawn: new Float64Array(DRAWN_SIZE),
    minute: 0,
    temperatureC: 0,
    wheyFraction: 0,
    clotProgress: 0,
    flocculationMin: Number.NaN,
    staphLogs: 0,
    minutesToPH54: Number.NaN,
    wheyL: 0,
    curdSerumL: 1,
    rennetImcuPerL: 0,
    evaporatedKg: 0,
    heatCapacityKJPerK: 0,
  };
}

/** Keeps what `advance` changes. */
export function keep(vat: Vat): void {
  const { kept } = vat;
  copy(vat.acid, kept.acid);
  if (vat.conditions.phase === 'drained') copy(vat.drawn, kept.drawn);
  kept.minute = vat.minute;
  kept.temperatureC = vat.temperatureC;
  kept.wheyFraction = vat.wheyFraction;
  kept.clotProgress = vat.clotProgress;
  kept.flocculationMin = vat.flocculationMin;
  kept.staphLogs = vat.staphLogs;
  kept.minutesToPH54 = vat.minutesToPH54;
  kept.wheyL = vat.conditions.wheyL;
  kept.curdSerumL = vat.conditions.curdSerumL;
  kept.rennetImcuPerL = vat.clotting.doseImcuPerL;
  kept.evaporatedKg = vat.evaporatedKg;
  kept.heatCapacityKJPerK = vat.heatCapacityKJPerK;
}

/** Puts back what `advance` changed. */
export function putBack(vat: Vat): void {
  const { kept } = vat;
  copy(kept.acid, vat.acid);
  if (vat.conditions.phase === 'drained') copy(kept.drawn, vat.drawn);
  vat.minute = kept.minute;
  vat.temperatureC = kept.temperatureC;
  vat.wheyFraction = kept.wheyFraction;
  vat.clotProgress = kept.clotProgress;
  vat.flocculationMin = kept.flocculationMin;
  vat.staphLogs = kept.staphLogs;
  vat.minutesToPH54 = kept.minutesToPH54;
  vat.conditions.wheyL = kept.wheyL;
  vat.conditions.curdSerumL = kept.curdSerumL;
  vat.clotting.doseImcuPerL = kept.rennetImcuPerL;
  vat.evaporatedKg = kept.evaporatedKg;
  vat.heatCapacityKJPerK = kept.heatCapacityKJPerK;
}

/** A loop, because for a dozen numbers a call of `set` costs five times as much. */
function copy(from: Float64Array, to: Float64Array): void {
  for (let i = 0; i < to.length; i++) to[i] = from[i] ?? 0;
}
