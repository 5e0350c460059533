import { INGREDIENTS } from '../make/step.ts';
import { splitAtCutting } from '../science/acidification-events.ts';
import { depthCmFromLitres } from '../science/pot.ts';
import { liquidKgPerL } from '../science/vat-liquid.ts';
import { waterHeatCapacityKJPerK } from '../science/wash.ts';
import { addTo, ownFraction } from './additions.ts';
import { leaveVat, readyToStretch, type Decisions, type StepEnd } from './after-vat.ts';
import { curdKgOf, curdMoistureOf, drawnContents, wheyContents, wheyLitres } from './contents.ts';
import { AFTER_VAT, type Course, type CourseStep } from './course.ts';
import type { Inputs } from './inputs.ts';
import { believedPH, IN_THE_VAT } from './observe.ts';
import { drainVat, drawWhey, pourWater, washWaterKg } from './pouring.ts';
import { emptyRun, FIGURE_AT, type Figure, type MemberRun, type RunSizes } from './run.ts';
import { resetVat, type Vat } from './vat-state.ts';
import { traceTo } from './trace.ts';
import { newWalk, observeUpTo, turnOffC, walkLeg, type Leg, type Observation, type Walk } from './walk.ts';

const PHASE = { milk: 0, 'curd-in-whey': 1, drained: 2 } as const;
const CURD_SPECIFIC_HEAT = 3.09; // kJ/(kg K), Choi-Okos at 50 % moisture, heat notes 3.2
const WHEY_SPECIFIC_HEAT = 4.0; // kJ/(kg K), Choi-Okos, heat notes 1.2
const OVERHEATED_C = 1; // our own choice: above what a coasting burner is out by
const COAST_MIN = 3; // our own choice: a turned-off burner has given its heat after about three minutes

/** Runs one make, start to end, for one member; the vat is reused from member to member. */
export function runMember(input: {
  course: Course;
  inputs: Inputs;
  vat: Vat;
  observations: readonly Observation[];
  decisions: Decisions;
  stepMin?: number;
  /** Called as each step is over, for whoever keeps accounts. */
  onStepEnd?: StepEnd;
  /** Where the run is to lie, from a byte on; by itself where left out. */
  into?: { readonly memory: ArrayBuffer; readonly from: number };
}): MemberRun {
  const { course, inputs, vat, decisions } = input;
  resetVat(vat, inputs);
  const run = emptyRun(runSizes(course), input.into?.memory, input.into?.from);
  const walk = newWalk({ course, vat, run, observations: input.observations, ...optional(input.stepMin) });
  let isAfter = false;
  for (const step of course.steps) {
    if (AFTER_VAT.has(step.verb)) isAfter = true;
    if (isAfter) break;
    walkStep(walk, step);
    input.onStepEnd?.({ step, run, cheese: null });
  }
  observeUpTo(walk);
  leaveVat({ walk, decisions, ...(input.onStepEnd === undefined ? {} : { onStepEnd: input.onStepEnd }) });
  set(run, 'staphLogs', vat.staphLogs);
  set(run, 'flocculationMin', vat.flocculationMin - vat.rennetMin);
  set(run, 'minutesToPH54', vat.minutesToPH54 - vat.cultureMin);
  return run;
}

/** How much this make's runs hold. */
export const runSizes = ({ steps, history }: Course): RunSizes => ({
  steps: steps.length,
  readings: history.readings.length,
  judgements: history.judgements.length,
});

const optional = (stepMin: number | undefined): { stepMin?: number } => (stepMin === undefined ? {} : { stepMin });

/** Puts one figure into a run. */
export function set(run: MemberRun, figure: Figure, value: number): void {
  run.figures[FIGURE_AT[figure]] = value;
}

function walkStep(walk: Walk, step: CourseStep): void {
  const { vat, run, course } = walk;
  const startMin = step.startedMin ?? Math.max(vat.minute, isComing(course, step) ? course.mayEndFromMin : 0);
  if (startMin > vat.minute) {
    vat.heaterW = 0;
    walkLeg(walk, untilGiven({ step, startedMin: vat.minute, endMin: startMin, holdC: Number.NaN }));
  }
  run.startMin[step.index] = vat.minute;
  const forcedEndMin = step.endedMin ?? step.nextStartedMin;
  begin(walk, step);
  const reached =
    step.verb === 'warm' || step.verb === 'cook' ? heatUp(walk, step, forcedEndMin) : keepOn(walk, step, forcedEndMin);
  finish(walk, step);
  run.leftMin[step.index] = vat.minute;
  // A rest that never came to its end is left in the end, and says so; other waits are simply over.
  run.endMin[step.index] = reached || step.verb !== 'restToAcid' ? vat.minute : Number.POSITIVE_INFINITY;
  run.endPH[step.index] = believedPH(vat);
  run.endTemperatureC[step.index] = vat.temperatureC;
  run.phase[step.index] = PHASE[vat.conditions.phase];
}

/** A leg that ends at a given minute, whatever is seen meanwhile. */
function untilGiven(given: { step: CourseStep; startedMin: number; endMin: number; holdC: number }): Leg {
  const { step, startedMin, endMin, holdC } = given;
  return { step, ends: step, startedMin, forcedEndMin: endMin, notBeforeMin: 0, deadlineMin: endMin, holdC };
}

/** A step that is not a heating: as it was held at first, where that was changed on the way, and then as it is held now. */
function keepOn(walk: Walk, step: CourseStep, forcedEndMin: number | null): boolean {
  const { vat, course } = walk;
  const startedMin = vat.minute;
  // A step that nobody has ended yet still goes on, however long it has lasted.
  const deadlineMin = Math.max(startedMin + deadlineOf(step), course.mayEndFromMin);
  for (const { atC, untilMin } of step.plan.heldUntil ?? []) {
    const endMin = Math.min(untilMin, forcedEndMin ?? untilMin);
    if (endMin > vat.minute) walkLeg(walk, untilGiven({ step, startedMin, endMin, holdC: heldAtC(vat, step, atC) }));
  }
  return walkLeg(walk, {
    step,
    ends: step,
    startedMin,
    forcedEndMin,
    notBeforeMin: course.mayEndFromMin,
    deadlineMin,
    holdC: heldAtC(vat, step, step.plan.set.atC),
  });
}

/** Temperature that a step is held at, NaN where it is not. */
const heldAtC = (vat: Vat, step: CourseStep, atC: unknown): number =>
  step.heating === 'hold' && typeof atC === 'number' ? trueC(vat, atC) : Number.NaN;

/** What the milk is at when the maker's own thermometer says so. */
const trueC = (vat: Vat, readC: number): number => readC - vat.inputs.thermometerBiasC;

const isComing = (course: Course, step: CourseStep): boolean => course.mayEndFromMin > 0 && step.startedMin === null;

function deadlineOf(step: CourseStep): number {
  if (step.verb === 'restToAcid') return step.longestMin;
  return step.verb === 'set' ? 180 : Math.max(2 * (step.expectedMin ?? 30), 10);
}

/** What happens as a step begins. */
function begin(walk: Walk, step: CourseStep): void {
  const { vat } = walk;
  const { ground } = vat.inputs;
  vat.heaterW = 0;
  vat.aroundC = step.verb === 'chillCurd' && typeof step.plan.set.atC === 'number' ? step.plan.set.atC : Number.NaN;
  vat.loss =
    vat.conditions.phase === 'drained'
      ? ground.lossDrained
      : step.verb === 'wash' || step.verb === 'drawWhey' || step.verb === 'cut'
        ? ground.lossOpen
        : ground.lossKept;
  if (step.verb === 'cut' && Number.isNaN(vat.cutMin)) {
    splitAtCutting(vat.acid);
    vat.cutMin = vat.minute;
    vat.conditions.phase = 'curd-in-whey';
  }
  if (step.verb === 'wash') pour(walk, step);
  if (step.verb === 'stretch') readyToStretch(walk, step);
}

/** What has happened when a step is over. */
function finish(walk: Walk, step: CourseStep): void {
  const { vat } = walk;
  vat.heaterW = 0;
  if (step.verb === 'add') add(walk, step);
  if (step.verb === 'drawWhey') draw(walk, step);
  if (step.verb === 'drain') drain(walk);
  traceTo(walk);
}

function add(walk: Walk, step: CourseStep): void {
  const ingredient = INGREDIENTS.find((one) => one === step.plan.set.ingredient);
  if (ingredient !== undefined) addTo(walk.vat, ingredient, ownFraction(walk.course, ingredient));
}

/** Whey drawn: what was measured, else the planned share of the vat; never more than stands free. */
function draw(walk: Walk, step: CourseStep): void {
  const { vat, run } = walk;
  const { ground } = vat.inputs;
  const ofVat = step.plan.set.fractionOfVat;
  const ofWhey = step.plan.set.fractionOfWhey;
  const freeL = wheyLitres(wheyContents(vat));
  const ofVatL = ground.plan.setup.milk.volumeL * (typeof ofVat === 'number' ? ofVat : 0);
  const plannedL = typeof ofVat !== 'number' && typeof ofWhey === 'number' ? ofWhey * freeL : ofVatL;
  vat.freeWheyL = freeL;
  const drawnL = drawWhey(vat, step.wheyOffL ?? plannedL);
  vat.heatCapacityKJPerK -= drawnL * liquidKgPerL({ liquid: 'whey', temperatureC: 37 }) * WHEY_SPECIFIC_HEAT;
  set(run, 'wheyDrawnL', drawnL);
  set(run, 'wheyDrawnCm', depthCmFromLitres({ volumeL: drawnL, insideMm: ground.pot.insideMm }));
}

/** Hot water to the line that the whey left, or until the thermometer says stop. */
function pour(walk: Walk, step: CourseStep): void {
  const { vat, run } = walk;
  const { inputs } = vat;
  const plannedC = step.plan.set.waterC;
  if (typeof plannedC !== 'number' || typeof step.plan.set.stopAtC !== 'number') return;
  const waterC = step.waterC === null ? plannedC : trueC(vat, step.waterC);
  const stopAtC = trueC(vat, step.plan.set.stopAtC);
  const toTheLineL = run.figures[FIGURE_AT.wheyDrawnL] ?? 0;
  const arrivingC = waterC - inputs.arrivalDropC;
  const perL = waterHeatCapacityKJPerK({ volumeL: 1, waterC: Math.min(Math.max(arrivingC, 1), 99) });
  const toStopL =
    arrivingC > stopAtC
      ? (vat.heatCapacityKJPerK * Math.max(stopAtC - vat.temperatureC, 0)) / (perL * (arrivingC - stopAtC))
      : Number.POSITIVE_INFINITY;
  const pouredL = Math.min(Number.isNaN(toTheLineL) ? 0 : toTheLineL, toStopL);
  const heat = perL * pouredL;
  vat.temperatureC = (vat.heatCapacityKJPerK * vat.temperatureC + heat * arrivingC) / (vat.heatCapacityKJPerK + heat);
  vat.heatCapacityKJPerK += heat;
  pourWater(vat, washWaterKg({ volumeL: pouredL, arrivingC }));
  const before = run.figures[FIGURE_AT.washWaterL] ?? Number.NaN;
  set(run, 'washWaterL', pouredL + (Number.isNaN(before) ? 0 : before));
}

/** The whey is off; what is left is curd in a warm pot. */
function drain(walk: Walk): void {
  const { vat, run } = walk;
  const { ground } = vat.inputs;
  vat.freeWheyL = wheyLitres(wheyContents(vat));
  drainVat(vat);
  set(run, 'wheyL', wheyLitres(drawnContents(vat)));
  vat.conditions.phase = 'drained';
  vat.curdErrorFromMin = vat.minute;
  vat.heatCapacityKJPerK = curdKgOf(vat) * CURD_SPECIFIC_HEAT + ground.potKJPerK;
  vat.loss = ground.lossDrained;
  set(run, 'curdKg', curdKgOf(vat));
  set(run, 'moisturePercent', curdMoistureOf(vat));
}

/** Warming: full heat up to the turning-off point, then coasting; a cook spreads it over its own minutes. */
function heatUp(walk: Walk, step: CourseStep, forcedEndMin: number | null): boolean {
  const { vat, run, course } = walk;
  const { overMinutes } = step.plan.set;
  if (typeof step.plan.set.toC !== 'number') return true;
  const toC = trueC(vat, step.plan.set.toC);
  const offC = turnOffC(vat, toC);
  // As the maker's thermometer will show it.
  run.heatOffC[step.index] = offC + vat.inputs.thermometerBiasC;
  const startedMin = vat.minute;
  if (typeof overMinutes === 'number') {
    const endMin = forcedEndMin ?? vat.minute + overMinutes;
    vat.heaterW = (vat.heatCapacityKJPerK * (toC - vat.temperatureC)) / (0.06 * Math.max(endMin - vat.minute, 1));
    walkLeg(walk, untilGiven({ step, startedMin, endMin: Math.max(endMin, vat.minute), holdC: Number.NaN }));
    vat.heaterW = 0;
    if (forcedEndMin === null) vat.temperatureC = toC;
    return true;
  }
  vat.heaterW = vat.inputs.heaterW;
  const reached = walkLeg(walk, {
    step,
    ends: { watches: [{ kind: 'temperature', atC: offC }], join: 'first' },
    startedMin,
    forcedEndMin,
    notBeforeMin: course.mayEndFromMin,
    deadlineMin: startedMin + step.longestMin,
    holdC: Number.NaN,
  });
  vat.heaterW = 0;
  if (forcedEndMin !== null) {
    // The maker went on, so it was warm enough, unless the thermometer said otherwise meanwhile.
    const startMin = run.startMin[step.index] ?? 0;
    const isMeanwhile = ({ elapsedMin }: { elapsedMin: number }): boolean =>
      elapsedMin >= startMin && elapsedMin <= forcedEndMin;
    const { readings, disturbances = [] } = course.history;
    const wasTold =
      readings.some((one) => one.quantity === 'temperatureC' && IN_THE_VAT.has(one.sample) && isMeanwhile(one)) ||
      disturbances.some((told) => told.kind === 'temperature' && isMeanwhile(told));
    if (!wasTold) vat.temperatureC = toC;
    return true;
  }
  if (!reached) return false;
  walkLeg(walk, untilGiven({ step, startedMin, endMin: vat.minute + COAST_MIN, holdC: Number.NaN }));
  // What coasts a little short or past is helped to the point; what was overheated stays hot until it cools.
  if (vat.temperatureC < toC + OVERHEATED_C) vat.temperatureC = toC;
  return true;
}
