import { ACID_STATE } from '../science/acidification.ts';
import { splitAtCutting, startAcid } from '../science/acidification-events.ts';
import { pHAfterDoseKernel } from '../science/buffer-acid.ts';
import { insolubleCalciumMgPerG } from '../science/buffer-calcium.ts';
import { addedCalciumMM, calciumPHFall } from '../science/calcium.ts';
import type { Ingredient } from '../make/step.ts';
import type { Course, CourseStep } from './course.ts';
import { pourStarter, pourWater, waterWithKg } from './pouring.ts';
import { curdPHOf, type Vat } from './vat-state.ts';

/** Noted within so many minutes of its step's end it is the step's own: our own choice. */
const OWN_WITHIN_MIN = 1;

/** What goes in at one moment beside its own step. */
export interface LateAddition {
  readonly elapsedMin: number;
  readonly ingredient: Ingredient;
  readonly fractionOfPlan: number;
}

/** The share of the plan that went in at the step itself; as planned where nobody noted it. */
export function ownFraction(course: Course, ingredient: Ingredient): number {
  const own = course.history.additions.find((entry) => entry.ingredient === ingredient && !isLate(course, entry));
  return own?.fractionOfPlan ?? 1;
}

/** What went in, or will, after the step of its ingredient was over. */
export function lateAdditions(course: Course): LateAddition[] {
  return course.history.additions.filter((entry) => isLate(course, entry));
}

function isLate(course: Course, entry: LateAddition): boolean {
  const step = course.steps.find((candidate) => isFor(candidate, entry.ingredient));
  const endedMin = step?.endedMin ?? Number.POSITIVE_INFINITY;
  return entry.elapsedMin > endedMin + OWN_WITHIN_MIN;
}

const isFor = (step: CourseStep, ingredient: Ingredient): boolean =>
  step.verb === 'add' && step.plan.set.ingredient === ingredient;

/** Puts an ingredient into the vat: `fraction` of the planned amount. After the cut a starter is taken to bring its cells alone. */
export function addTo(vat: Vat, ingredient: Ingredient, fraction: number): void {
  if (fraction <= 0) return;
  if (ingredient === 'culture') addCulture(vat, fraction);
  if (ingredient === 'calcium') addCalcium(vat, fraction);
  if (ingredient === 'rennet') addRennet(vat, fraction);
  if (ingredient === 'acid') addAcid(vat, fraction);
}

const CURDLES_FROM_C = 60; // hot acid milk curdles without rennet; our own bound below the 70 °C of trade texts (seen)

/** Acid into the milk, or into what is hot: there the protein comes down at once. Its calcium decides where such curd stretches. */
function addAcid(vat: Vat, fraction: number): void {
  const { acid } = vat.inputs.ground;
  if (acid === null || vat.conditions.phase === 'drained') return;
  const pH = pHAfterDoseKernel({
    table: vat.inputs.acid.buffer,
    bufferFactor: vat.inputs.acid.bufferFactor,
    fromPH: curdPHOf(vat),
    acid: acid.acid,
    mmolPerL: acid.mmolPerL * fraction * vat.inputs.acidFactor,
  });
  vat.acid[ACID_STATE.curdPH] = pH;
  vat.acid[ACID_STATE.wheyPH] = pH;
  pourWater(vat, fraction * acid.waterKgPerL * vat.inputs.ground.plan.setup.milk.volumeL);
  if (Number.isNaN(vat.rennetMin) && vat.temperatureC < CURDLES_FROM_C) {
    const at = Math.min(Math.max(pH, CALCIUM_PH.low), CALCIUM_PH.high);
    vat.acidCalciumMgPerG = insolubleCalciumMgPerG({ drainPH: at, curdPH: at });
  }
  if (vat.temperatureC >= CURDLES_FROM_C) curdle(vat);
}

const CALCIUM_PH = { low: 4.6, high: 6.8 } as const; // what the calcium curve spans

/** From here on there are curd and whey, cut by nobody: flecks of protein that heat and acid brought down. */
export function curdle(vat: Vat): void {
  if (!Number.isNaN(vat.cutMin)) return;
  splitAtCutting(vat.acid);
  vat.cutMin = vat.minute;
  vat.conditions.phase = 'curd-in-whey';
}

function addCulture(vat: Vat, fraction: number): void {
  const { inputs, acid } = vat;
  const { culture } = inputs.ground.plan.setup;
  const isMilk = vat.conditions.phase === 'milk';
  const isFirst = Number.isNaN(vat.cultureMin);
  // Those that are there go on as they are; the new ones are taken to wake as quickly.
  const cellsPerL = (isFirst ? 0 : (acid[ACID_STATE.cellsPerL] ?? 0)) + fraction * inputs.cellsPerL;
  if (isFirst) {
    vat.cultureMin = vat.minute;
    if (isMilk) {
      startAcid(acid, {
        cellsPerL,
        lagWork: inputs.lagWork,
        pH: curdPHOf(vat),
        lactoseMM: acid[ACID_STATE.curdLactoseMM] ?? 0,
        strength: acid[ACID_STATE.curdStrength] ?? 1,
      });
    } else {
      acid[ACID_STATE.lnQ] = -Math.log(Math.expm1(Math.max(inputs.lagWork, 1e-3)));
    }
  }
  if (isMilk && culture.bulkPercent !== undefined) {
    pourStarter(vat, { form: culture.form === 'whey' ? 'whey' : 'bulk', percent: culture.bulkPercent * fraction });
  }
  acid[ACID_STATE.cellsPerL] = cellsPerL;
}

function addCalcium(vat: Vat, fraction: number): void {
  const { calciumGPerL } = vat.inputs.ground;
  vat.acid[ACID_STATE.curdPH] = curdPHOf(vat) - calciumPHFall(calciumGPerL * fraction);
  vat.clotting.addedCalciumMM += addedCalciumMM(calciumGPerL) * fraction;
  pourWater(vat, fraction * waterWithKg(vat.inputs, 'calcium'));
}

function addRennet(vat: Vat, fraction: number): void {
  const { doseImcuPerL } = vat.inputs.clotting;
  pourWater(vat, fraction * waterWithKg(vat.inputs, 'rennet'));
  if (Number.isNaN(vat.rennetMin)) {
    vat.rennetMin = vat.minute;
    vat.clotting.doseImcuPerL = doseImcuPerL * fraction;
  } else {
    vat.clotting.doseImcuPerL += doseImcuPerL * fraction;
  }
}
