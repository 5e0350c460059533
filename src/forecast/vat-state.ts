import { ACID_STATE, ACID_STATE_SIZE, type AcidConditions, type AcidParameters } from '../science/acidification.ts';
import type { Expulsion } from '../science/acidification-events.ts';
import { acidStep, acidStepWork, type AcidSpan, type AcidStepWork } from '../science/acidification-step.ts';
import type { ClottingState } from '../science/coagulation.ts';
import { firmnessTowards } from '../science/firmness.ts';
import type { SyneresisState } from '../science/syneresis.ts';
import type { LossCurve } from '../science/vat.ts';
import { DRAWN_SIZE, type CurdState } from './contents.ts';
import type { Inputs } from './inputs.ts';
import { emptyKept, type Kept } from './kept.ts';

/**
 * One vat in flight: the state of one member and the step that moves it on. Everything mutable of a member's make is here;
 * the object is made once and reset for each member, so that a step allocates nothing.
 */
export interface Vat {
  inputs: Inputs;
  minute: number;
  temperatureC: number;
  readonly acid: Float64Array;
  readonly conditions: AcidConditions;
  /** The member's acid parameters; the exchange follows the grains as they shrink. */
  readonly acidParameters: { -readonly [K in keyof AcidParameters]: AcidParameters[K] };
  /** Milk in the vat, with the bulk starter: what all volumes and amounts per litre of milk are per. */
  milkKg: number;
  /** Share of the milk's mass that has left the curd as whey. */
  wheyFraction: number;
  /** What has left the vat, in the places of `DRAWN`. */
  readonly drawn: Float64Array;
  /** NaN until it happened. */
  cultureMin: number;
  rennetMin: number;
  flocculationMin: number;
  cutMin: number;
  clotProgress: number;
  readonly clotting: ClottingState;
  readonly syneresis: SyneresisState;
  readonly expulsion: { -readonly [K in keyof Expulsion]: Expulsion[K] };
  /** Start of the curd's model error: when drained, and again at each reading of the curd. */
  curdErrorFromMin: number;
  /** pH that the curd was drained at, and then the one it was last read at: from there on the model's error grows. NaN before. */
  curdErrorFromPH: number;
  curdWasRead: boolean;
  staphLogs: number;
  minutesToPH54: number;
  heaterW: number;
  /** Held at this from outside, as somebody told; NaN where nobody did. */
  heldC: number;
  /** True while nothing warms it, whatever the plan says. */
  isUnheated: boolean;
  /** Round the vat where it stands colder than the room; NaN in the room. */
  aroundC: number;
  /** Whey that stood free when some was last drawn or drained [L], NaN before; salt mixed into the drained curd. */
  freeWheyL: number;
  saltMixedKg: number;
  /** Share of the milk's mass that leaves as whey in the end: the member's own, and more under a press. */
  wheyEndFraction: number;
  /** The step is there to boil water away. */
  isBoiledDown: boolean;
  /** Water boiled off, and water poured on as a wash [kg]. */
  evaporatedKg: number;
  washedKg: number;
  /** Insoluble calcium where acid was poured into the milk before rennet [mg per g protein]; NaN where it was not. */
  acidCalciumMgPerG: number;
  roomC: number;
  loss: LossCurve;
  heatCapacityKJPerK: number;
  /** How the vat stood before the step being made. */
  readonly kept: Kept;
  /** How it stood halfway through the step last made, but for the souring: for the curve between its ends. */
  readonly middle: Middle;
  /** Length and temperatures of the step being made. */
  readonly span: AcidSpan;
  readonly acidWork: AcidStepWork;
  /** Moves the acid state over `span`; the bench puts a general library's integrator here. */
  moveAcid: (vat: Vat) => void;
}

export interface Middle {
  temperatureC: number;
  curdPH: number;
  wheyPH: number;
  readonly curd: { -readonly [K in keyof CurdState]: CurdState[K] };
}

/** A vat for the first member; `resetVat` readies it for the next. */
export function newVat(inputs: Inputs): Vat {
  const acid = new Float64Array(ACID_STATE_SIZE);
  const conditions: AcidConditions = { temperatureC: 0, curdSerumL: 1, wheyL: 0, phase: 'milk', saltFactor: 1 };
  const vat: Vat = {
    inputs,
    minute: 0,
    temperatureC: 0,
    acid,
    conditions,
    acidParameters: { ...inputs.acid },
    milkKg: 0,
    wheyFraction: 0,
    drawn: new Float64Array(DRAWN_SIZE),
    cultureMin: Number.NaN,
    rennetMin: Number.NaN,
    flocculationMin: Number.NaN,
    cutMin: Number.NaN,
    clotProgress: 0,
    clotting: { ...inputs.clotting },
    syneresis: { temperatureC: 0, pH: 0, cubeMm: 0, stirring: 'still' },
    expulsion: { curdSerumL: 1, wheyL: 0, expelledL: 0, drained: false },
    curdErrorFromMin: Number.NaN,
    curdErrorFromPH: Number.NaN,
    curdWasRead: false,
    staphLogs: 0,
    minutesToPH54: Number.NaN,
    heaterW: 0,
    heldC: Number.NaN,
    isUnheated: false,
    aroundC: Number.NaN,
    freeWheyL: Number.NaN,
    saltMixedKg: 0,
    wheyEndFraction: inputs.wheyEndFraction,
    isBoiledDown: false,
    evaporatedKg: 0,
    washedKg: 0,
    acidCalciumMgPerG: Number.NaN,
    roomC: inputs.roomC,
    loss: inputs.ground.lossOpen,
    heatCapacityKJPerK: 0,
    kept: emptyKept(),
    middle: {
      temperatureC: 0,
      curdPH: 0,
      wheyPH: 0,
      curd: { wheyFraction: 0, serumL: 1, strength: 1, lactoseMM: 0 },
    },
    span: { hours: 0, startC: 0, middleC: 0, endC: 0 },
    acidWork: acidStepWork(),
    moveAcid: (own) => acidStep(own.acid, own.acidParameters, own.conditions, own.span, own.acidWork),
  };
  resetVat(vat, inputs);
  return vat;
}

/** Milk in the pot, nothing added yet. */
export function resetVat(vat: Vat, inputs: Inputs): void {
  vat.inputs = inputs;
  vat.minute = 0;
  vat.kept.minute = 0;
  vat.acidWork.k1.fill(0);
  vat.temperatureC = inputs.ground.plan.setup.milk.temperatureC;
  vat.acid.fill(0);
  vat.acid[ACID_STATE.lnQ] = -40;
  vat.acid[ACID_STATE.curdPH] = inputs.startPH;
  vat.acid[ACID_STATE.wheyPH] = inputs.startPH;
  vat.acid[ACID_STATE.curdLactoseMM] = inputs.ground.milk.lactoseMM;
  vat.acid[ACID_STATE.curdStrength] = 1;
  vat.acid[ACID_STATE.wheyStrength] = 1;
  vat.conditions.curdSerumL = 1;
  vat.conditions.wheyL = 0;
  vat.conditions.phase = 'milk';
  vat.conditions.saltFactor = 1;
  vat.milkKg = inputs.ground.milkKg;
  vat.wheyFraction = 0;
  vat.drawn.fill(0);
  vat.cultureMin = vat.rennetMin = vat.flocculationMin = vat.cutMin = vat.freeWheyL = Number.NaN;
  vat.clotProgress = 0;
  Object.assign(vat.acidParameters, inputs.acid);
  // Calcium and rennet come with their own steps.
  Object.assign(vat.clotting, inputs.clotting, { addedCalciumMM: 0 });
  vat.syneresis.cubeMm = inputs.ground.cubeMm;
  vat.curdErrorFromMin = vat.curdErrorFromPH = Number.NaN;
  vat.curdWasRead = false;
  vat.staphLogs = vat.saltMixedKg = vat.evaporatedKg = vat.washedKg = 0;
  vat.wheyEndFraction = inputs.wheyEndFraction;
  vat.acidCalciumMgPerG = Number.NaN;
  vat.minutesToPH54 = Number.NaN;
  vat.heaterW = 0;
  vat.heldC = vat.aroundC = Number.NaN;
  vat.isUnheated = vat.isBoiledDown = false;
  vat.roomC = inputs.roomC;
  vat.loss = inputs.ground.lossKept;
  vat.heatCapacityKJPerK = inputs.ground.milkKJPerK + inputs.ground.potKJPerK;
}

export const curdPHOf = (vat: Vat): number => vat.acid[ACID_STATE.curdPH] ?? 0;
export const wheyPHOf = (vat: Vat): number => vat.acid[ACID_STATE.wheyPH] ?? 0;

/** Firmness of the gel now [Pa]; 0 before flocculation. */
export function firmnessOf(vat: Vat): number {
  if (Number.isNaN(vat.flocculationMin)) return 0;
  return firmnessTowards({
    minutesSinceFlocculation: vat.minute - vat.flocculationMin,
    clottingTimeMin: vat.flocculationMin - vat.rennetMin,
    fullPa: vat.inputs.fullFirmnessPa,
  });
}
