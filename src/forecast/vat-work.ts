import { INGREDIENTS } from '../make/step.ts';
import { splitAtCutting } from '../science/acidification-events.ts';
import { ACID_STATE } from '../science/acidification.ts';
import { depthCmFromLitres } from '../science/pot.ts';
import { liquidKgPerL } from '../science/vat-liquid.ts';
import { waterHeatCapacityKJPerK } from '../science/wash.ts';
import { addTo, curdle, ownFraction } from './additions.ts';
import { curdKgOf, curdMoistureOf, drawnContents, wheyContents, wheyLitres } from './contents.ts';
import type { CourseStep } from './course.ts';
import { mixSalt } from './observe-salt.ts';
import { drainVat, drawWhey, pourWater, washWaterKg } from './pouring.ts';
import { FIGURE_AT, type Figure, type MemberRun } from './run.ts';
import { moveSerum } from './serum.ts';
import { curdPHOf, type Vat } from './vat-state.ts';
import type { Walk } from './walk.ts';

/** What hands do to the vat as a step begins and when it is over, verb by verb; what time does is `walk.ts`. */

const CURD_SPECIFIC_HEAT = 3.09; // kJ/(kg K), Choi-Okos at 50 % moisture, heat notes 3.2
const WHEY_SPECIFIC_HEAT = 4.0; // kJ/(kg K), Choi-Okos, heat notes 1.2
const COOLER_BY_C = 1; // what is meant to stand so much below the room stands in a cooler place: our own choice
/** Verbs whose temperature is that of the place where the curd stands. */
const STANDS: ReadonlySet<string> = new Set([
  'hold',
  'ripen',
  'restToAcid',
  'set',
  'settle',
  'press',
  'mat',
  'dry',
  'form',
]);

/** Puts one figure into a run. */
export function set(run: MemberRun, figure: Figure, value: number): void {
  run.figures[FIGURE_AT[figure]] = value;
}

/** What the milk is at when the maker's own thermometer says so. */
export const trueC = (vat: Vat, readC: number): number => readC - vat.inputs.thermometerBiasC;

/**
 * What stands round the vat, how fast it loses heat, and what is done as the step begins. A pot that boils down
 * loses to the room what one under its lid does; the rest of the burner's heat leaves as steam, and is counted as water.
 */
export function beginWork(walk: Walk, step: CourseStep): void {
  const { vat } = walk;
  const { ground } = vat.inputs;
  vat.aroundC = aroundC(vat, step);
  vat.loss =
    step.verb === 'cool'
      ? ground.lossBath
      : vat.conditions.phase === 'drained'
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
  vat.isBoiledDown = step.verb === 'boilDown';
  if (vat.isBoiledDown) vat.heaterW = vat.inputs.heaterW;
  if (step.verb === 'press') pressOn(vat);
}

function aroundC(vat: Vat, step: CourseStep): number {
  const { atC, bathC } = step;
  if (step.verb === 'cool' && !Number.isNaN(bathC)) return bathC;
  if (Number.isNaN(atC)) return Number.NaN;
  if (step.verb === 'chillCurd' || step.verb === 'press') return atC;
  return STANDS.has(step.verb) && atC < vat.roomC - COOLER_BY_C ? atC : Number.NaN;
}

/** What has happened when a step is over. */
export function finishWork(walk: Walk, step: CourseStep): void {
  const { vat } = walk;
  switch (step.verb) {
    case 'add':
      return add(walk, step);
    case 'heatWithAcid':
      if (Number.isNaN(vat.cutMin)) addTo(vat, 'acid', hasOwnAcidStep(walk) ? 0 : ownFraction(walk.course, 'acid'));
      return;
    case 'drawWhey':
      return draw(walk, step);
    case 'drain':
      return drain(walk);
    case 'scoop':
      return scoop(walk);
    case 'mill':
      if (typeof step.plan.set.pieceMm === 'number') vat.syneresis.cubeMm = step.plan.set.pieceMm;
      return;
    default:
  }
}

/** Acid that has a step of its own does not go in again with the heat. */
const hasOwnAcidStep = (walk: Walk): boolean =>
  walk.course.steps.some((step) => step.verb === 'add' && step.plan.set.ingredient === 'acid');

/** A share more of the curd runs off in forms and under the press; how fast, the law of the draining curd says. Once a make. */
function pressOn(vat: Vat): void {
  const { wheyEndFraction, pressLossFraction } = vat.inputs;
  vat.wheyEndFraction = wheyEndFraction + (1 - wheyEndFraction) * pressLossFraction;
}

/** Ladled into cloth or forms: curd that was never cut is curd now, and its whey runs off from here on. */
function scoop(walk: Walk): void {
  curdle(walk.vat);
  if (walk.vat.conditions.curdSerumL > 1 - 1e-9) moveSerum(walk.vat, walk.vat.wheyFraction);
  drain(walk);
}

/**
 * Dry salt by the weight of the curd as it is, all of it as if halfway through the step; what was weighed and noted meanwhile
 * goes before the plan.
 */
export function salt(walk: Walk, step: CourseStep): void {
  const { vat, course, run } = walk;
  const percent = step.plan.set.saltPercent;
  const fromMin = run.startMin[step.index] ?? 0;
  const endMin = step.endedMin ?? step.nextStartedMin ?? Number.POSITIVE_INFINITY;
  const isNoted = course.history.readings.some(
    ({ quantity, sample, elapsedMin }) =>
      quantity === 'saltG' && (sample === 'curd' || sample === 'cheese') && elapsedMin >= fromMin && elapsedMin <= endMin, // prettier-ignore
  );
  if (isNoted || typeof percent !== 'number' || vat.conditions.phase !== 'drained') return;
  mixSalt(vat, (percent / 100) * (curdKgOf(vat) - vat.saltMixedKg));
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

/**
 * Water to the line that the whey left or by a share of the fill, and no more once the thermometer says stop. Drained curd lies
 * in it as it lay in its whey.
 */
function pour(walk: Walk, step: CourseStep): void {
  const { vat, run } = walk;
  const { inputs } = vat;
  const plannedC = step.plan.set.waterC;
  if (typeof plannedC !== 'number') return;
  const share = step.plan.set.waterFraction;
  const isCold = plannedC < COLD_WATER_C;
  const waterC = step.waterC === null ? plannedC : trueC(vat, step.waterC);
  const stopAtC = typeof step.plan.set.stopAtC === 'number' ? trueC(vat, step.plan.set.stopAtC) : 99;
  const toTheLineL =
    typeof share === 'number'
      ? share * inputs.ground.plan.setup.milk.volumeL
      : (run.figures[FIGURE_AT.wheyDrawnL] ?? 0);
  const arrivingC = isCold ? waterC : waterC - inputs.arrivalDropC;
  if (vat.conditions.phase === 'drained') submerge(vat);
  const perL = waterHeatCapacityKJPerK({ volumeL: 1, waterC: Math.min(Math.max(arrivingC, 1), 99) });
  const toStopL =
    arrivingC > stopAtC
      ? (vat.heatCapacityKJPerK * Math.max(stopAtC - vat.temperatureC, 0)) / (perL * (arrivingC - stopAtC))
      : Number.POSITIVE_INFINITY;
  const pouredL = Math.min(Number.isNaN(toTheLineL) ? 0 : toTheLineL, toStopL);
  const heat = perL * pouredL;
  vat.temperatureC = (vat.heatCapacityKJPerK * vat.temperatureC + heat * arrivingC) / (vat.heatCapacityKJPerK + heat);
  vat.heatCapacityKJPerK += heat;
  const waterKg = washWaterKg({ volumeL: pouredL, arrivingC });
  vat.washedKg += waterKg;
  pourWater(vat, waterKg);
  const before = run.figures[FIGURE_AT.washWaterL] ?? Number.NaN;
  set(run, 'washWaterL', pouredL + (Number.isNaN(before) ? 0 : before));
}

export const COLD_WATER_C = 40; // water below it is not cooled by the jug: our own choice

/** Drained curd goes under water: two phases again, the water still empty. */
function submerge(vat: Vat): void {
  vat.conditions.phase = 'curd-in-whey';
  vat.conditions.wheyL = 0;
  vat.acid[ACID_STATE.wheyPH] = curdPHOf(vat);
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
  if (Number.isNaN(vat.curdErrorFromPH)) vat.curdErrorFromPH = curdPHOf(vat);
  vat.heatCapacityKJPerK = curdKgOf(vat) * CURD_SPECIFIC_HEAT + ground.potKJPerK;
  vat.loss = ground.lossDrained;
  set(run, 'curdKg', curdKgOf(vat));
  set(run, 'moisturePercent', curdMoistureOf(vat));
}
