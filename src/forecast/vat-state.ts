import {
  acidRatesPerHour,
  ACID_STATE,
  ACID_STATE_SIZE,
  exchangePerHour,
  type AcidConditions,
  type AcidParameters,
} from '../science/acidification.ts';
import { expelSerum } from '../science/acidification-events.ts';
import { clottingRatePerMin, type ClottingState } from '../science/coagulation.ts';
import { gelFirmnessKernel } from '../science/firmness.ts';
import { RENNET_HOLDS_BELOW_C } from '../science/heat-death.ts';
import { staphLogsPerMinKernel } from '../science/staph.ts';
import { syneresisRatePerMin, wheyFractionAfter, type Stirring, type SyneresisState } from '../science/syneresis.ts';
import { curdMoistureKernel } from '../science/syneresis-balance.ts';
import { lossAt, type LossCurve } from '../science/vat.ts';
import { rk4Step, rk4Work, type Rates } from '../numbers/ode.ts';
import type { Inputs } from './inputs.ts';
import { overheat } from './overheat.ts';

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
  /** Share of the milk's mass that has left the curd as whey. */
  wheyFraction: number;
  /** NaN until it happened. */
  cultureMin: number;
  rennetMin: number;
  flocculationMin: number;
  cutMin: number;
  clotProgress: number;
  readonly clotting: ClottingState;
  readonly syneresis: SyneresisState;
  /** Start of the curd's model error: when drained, and again at each reading of the curd. */
  curdErrorFromMin: number;
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
  roomC: number;
  loss: LossCurve;
  heatCapacityKJPerK: number;
  readonly rates: Rates;
  /** Moves the acid state on by so many hours; the bench puts a general library's integrator here. */
  moveAcid: (hours: number) => void;
  startC: number;
  endC: number;
}

/** A vat for the first member; `resetVat` readies it for the next. */
export function newVat(inputs: Inputs): Vat {
  const acid = new Float64Array(ACID_STATE_SIZE);
  const work = rk4Work(ACID_STATE_SIZE);
  const conditions: AcidConditions = { temperatureC: 0, curdSerumL: 1, wheyL: 0, phase: 'milk', saltFactor: 1 };
  const vat: Vat = {
    inputs,
    minute: 0,
    temperatureC: 0,
    acid,
    conditions,
    acidParameters: { ...inputs.acid },
    wheyFraction: 0,
    cultureMin: Number.NaN,
    rennetMin: Number.NaN,
    flocculationMin: Number.NaN,
    cutMin: Number.NaN,
    clotProgress: 0,
    clotting: { ...inputs.clotting },
    syneresis: { temperatureC: 0, pH: 0, cubeMm: 0, stirring: 'still' },
    curdErrorFromMin: Number.NaN,
    curdWasRead: false,
    staphLogs: 0,
    minutesToPH54: Number.NaN,
    heaterW: 0,
    heldC: Number.NaN,
    isUnheated: false,
    aroundC: Number.NaN,
    freeWheyL: Number.NaN,
    saltMixedKg: 0,
    roomC: inputs.roomC,
    loss: inputs.ground.lossOpen,
    heatCapacityKJPerK: 0,
    moveAcid: (hours) => rk4Step({ state: vat.acid, rates: vat.rates, width: hours, work }),
    rates: (state, derivative, stepFraction) => {
      vat.conditions.temperatureC = vat.startC + stepFraction * (vat.endC - vat.startC);
      acidRatesPerHour(state, derivative, vat.acidParameters, vat.conditions);
    },
    startC: 0,
    endC: 0,
  };
  resetVat(vat, inputs);
  return vat;
}

/** Milk in the pot, nothing added yet. */
export function resetVat(vat: Vat, inputs: Inputs): void {
  vat.inputs = inputs;
  vat.minute = 0;
  vat.temperatureC = inputs.ground.plan.setup.milk.temperatureC;
  vat.acid.fill(0);
  vat.acid[ACID_STATE.lnQ] = -40;
  vat.acid[ACID_STATE.curdPH] = inputs.startPH;
  vat.acid[ACID_STATE.wheyPH] = inputs.startPH;
  vat.acid[ACID_STATE.curdLactoseMM] = inputs.ground.milk.lactoseMM;
  vat.acid[ACID_STATE.curdStrength] = 1;
  vat.acid[ACID_STATE.wheyStrength] = 1;
  Object.assign(vat.conditions, { curdSerumL: 1, wheyL: 0, phase: 'milk', saltFactor: 1 });
  vat.wheyFraction = 0;
  vat.cultureMin = vat.rennetMin = vat.flocculationMin = vat.cutMin = vat.freeWheyL = Number.NaN;
  vat.clotProgress = 0;
  Object.assign(vat.acidParameters, inputs.acid);
  // Calcium and rennet come with their own steps.
  Object.assign(vat.clotting, inputs.clotting, { addedCalciumMM: 0 });
  vat.syneresis.cubeMm = inputs.ground.cubeMm;
  vat.curdErrorFromMin = Number.NaN;
  vat.curdWasRead = false;
  vat.staphLogs = vat.saltMixedKg = 0;
  vat.minutesToPH54 = Number.NaN;
  vat.heaterW = 0;
  vat.heldC = vat.aroundC = Number.NaN;
  vat.isUnheated = false;
  vat.roomC = inputs.roomC;
  vat.loss = inputs.ground.lossKept;
  vat.heatCapacityKJPerK = inputs.ground.milkKJPerK + inputs.ground.potKJPerK;
}

export const curdPHOf = (vat: Vat): number => vat.acid[ACID_STATE.curdPH] ?? 0;
export const wheyPHOf = (vat: Vat): number => vat.acid[ACID_STATE.wheyPH] ?? 0;

// Solvent water: a quarter of the water in a firm curd carries no lactose, about 0.4 kg per kg of protein; our own fit to
// lactose in Cheddar moisture (Hou et al. 2012, Int. Dairy J. 25:21, abstract seen).
const BOUND_WATER_PER_CASEIN = 0.4;

/** Serum of the curd relative to all the milk's, from water in the curd less the bound part. */
export function serumShare(inputs: Inputs, wheyFraction: number): number {
  const { basis } = inputs;
  const boundKg = BOUND_WATER_PER_CASEIN * basis.milk.caseinKg;
  const waterKg = (1 - wheyFraction) * curdMoistureKernel(basis, wheyFraction);
  return Math.max((waterKg - boundKg) / (basis.milk.waterKg - boundKg), 0.01);
}

/** Curd in the vat [kg]. */
export function curdKgOf(vat: Vat): number {
  return vat.inputs.ground.milkKg * (1 - vat.wheyFraction);
}

/** Water in the curd [%]. A washed curd's serum carries less solids, so the same serum is more water. */
export function curdMoistureOf(vat: Vat): number {
  const { basis } = vat.inputs;
  const solids = 1 - basis.waterInSerumFraction;
  const strength = vat.acid[ACID_STATE.curdStrength] ?? 1;
  return (curdMoistureKernel(basis, vat.wheyFraction) * (1 - strength * solids)) / basis.waterInSerumFraction;
}

/** Firmness of the gel now [Pa]; 0 before flocculation. */
export function firmnessOf(vat: Vat): number {
  if (Number.isNaN(vat.flocculationMin)) return 0;
  return gelFirmnessKernel({
    minutesSinceFlocculation: vat.minute - vat.flocculationMin,
    clottingTimeMin: vat.flocculationMin - vat.rennetMin,
    caseinPercent: vat.inputs.caseinPercent,
    softening: vat.inputs.softening,
  });
}

const FIRST_CUT_SHARE = 1e-3; // a film of whey right after cutting, so that curd and whey are two phases at once

/**
 * Moves the vat `minutes` on under constant heating: temperature exactly over the step for the loss at its start, acid by one
 * Runge-Kutta step with the temperature at its start, middle and end, whey by the exact first-order law at the step's middle.
 */
export function advance(vat: Vat, minutes: number, stirring: Stirring): void {
  vat.startC = vat.temperatureC;
  // Two exact half steps keep the loss curve's own temperature dependence to a few thousandths of a kelvin.
  vat.temperatureC = cooled(vat, vat.temperatureC, minutes / 2);
  const middleC = vat.temperatureC;
  vat.temperatureC = cooled(vat, vat.temperatureC, minutes / 2);
  vat.endC = vat.temperatureC;

  if (!Number.isNaN(vat.cutMin)) loseWhey(vat, minutes / 2, middleC, stirring);
  const startPH = curdPHOf(vat);
  if (!Number.isNaN(vat.cultureMin)) {
    vat.moveAcid(minutes / 60);
  }
  if (!Number.isNaN(vat.cutMin)) loseWhey(vat, minutes / 2, middleC, stirring);

  if (!Number.isNaN(vat.rennetMin) && Number.isNaN(vat.flocculationMin)) {
    clot(vat, minutes, { temperatureC: middleC, pH: (startPH + curdPHOf(vat)) / 2 });
  }
  if (middleC > vat.inputs.acid.culture.temperatureMaxC || middleC > RENNET_HOLDS_BELOW_C) {
    overheat(vat, minutes, middleC);
  }
  vat.minute += minutes;
  vat.staphLogs += minutes * staphLogsPerMinKernel({ temperatureC: middleC, pH: curdPHOf(vat) });
  if (Number.isNaN(vat.minutesToPH54) && curdPHOf(vat) <= 5.4) vat.minutesToPH54 = vat.minute;
  vat.conditions.temperatureC = vat.temperatureC;
}

function cooled(vat: Vat, fromC: number, minutes: number): number {
  if (!Number.isNaN(vat.heldC)) return vat.heldC;
  const lossWPerK = vat.inputs.lossFactor * lossAt(vat.loss, fromC);
  const roundC = Number.isNaN(vat.aroundC) ? vat.roomC : vat.aroundC;
  const towardsC = roundC + (vat.isUnheated ? 0 : vat.heaterW) / lossWPerK;
  return towardsC + (fromC - towardsC) * Math.exp((-lossWPerK * minutes * 0.06) / vat.heatCapacityKJPerK);
}

function loseWhey(vat: Vat, minutes: number, temperatureC: number, stirring: Stirring): void {
  const { inputs, conditions, syneresis } = vat;
  syneresis.temperatureC = temperatureC;
  syneresis.pH = curdPHOf(vat);
  syneresis.stirring = stirring;
  const before = vat.wheyFraction;
  vat.wheyFraction = wheyFractionAfter({
    wheyFraction: before,
    wheyEndFraction: inputs.wheyEndFraction,
    ratePerMin: inputs.wheyRateFactor * syneresisRatePerMin(syneresis),
    minutes,
  });
  const serumL = serumShare(inputs, Math.max(vat.wheyFraction, FIRST_CUT_SHARE));
  const expelledL = conditions.curdSerumL - serumL;
  if (expelledL <= 0) return;
  const drained = conditions.phase === 'drained';
  expelSerum(vat.acid, inputs.acid, {
    curdSerumL: conditions.curdSerumL,
    wheyL: conditions.wheyL,
    expelledL,
    drained,
  });
  conditions.curdSerumL = serumL;
  // A grain that has lost most of its volume is that much smaller, and what travels through it has less far to go.
  vat.acidParameters.exchangePerHour = exchangePerHour(syneresis.cubeMm * Math.cbrt(1 - vat.wheyFraction));
  if (!drained) conditions.wheyL += expelledL;
}

function clot(vat: Vat, minutes: number, middle: { temperatureC: number; pH: number }): void {
  vat.clotting.temperatureC = middle.temperatureC;
  vat.clotting.pH = middle.pH;
  const gained = minutes * clottingRatePerMin(vat.clotting);
  if (vat.clotProgress + gained >= 1) {
    vat.flocculationMin = vat.minute + (minutes * (1 - vat.clotProgress)) / gained;
  }
  vat.clotProgress += gained;
}
