import { ACID_STATE } from '../science/acidification.ts';
import { wheyFractionForSolvent } from '../science/syneresis-balance.ts';
import { curdKgOf, solventKgOf } from './contents.ts';
import type { Course } from './course.ts';
import type { Inputs } from './inputs.ts';
import { modelErrorSd } from './observe.ts';
import { FIGURE_AT, TRACED, TRACE_EVERY_MIN, TRACE_POINTS, type MemberRun, type Traced } from './run.ts';
import { resetVat, type Vat } from './vat-state.ts';

/** One member's make as it was kept, and a moment of it. */
export interface Kept {
  readonly course: Course;
  readonly inputs: Inputs;
  readonly run: MemberRun;
  readonly elapsedMin: number;
}

/**
 * Stands a vat as this member's stood at a moment, from the trace that its make left behind: as much of it as weighing a
 * pH of milk or whey or a judgement asks for. Between the traced minutes it follows a straight line.
 */
export function standAt(vat: Vat, { course, inputs, run, elapsedMin }: Kept): void {
  resetVat(vat, inputs);
  const { acid, conditions } = vat;
  const traced = (quantity: Traced): number => tracedAt(run, quantity, elapsedMin);
  vat.minute = elapsedMin;
  vat.temperatureC = traced('temperatureC');
  conditions.phase = phaseAt(course, run, elapsedMin);
  standClotting(vat, course, run);
  if (conditions.phase !== 'milk') {
    vat.cutMin = startedOf(course, run, 'cut');
    standCurd(vat, traced('curdKg'), traced('curdMoisturePercent'));
    const whey = traced('wheyPH');
    if (!Number.isNaN(whey)) acid[ACID_STATE.wheyPH] = whey;
  }
  // The trace is what the member believes; the equations' own pH lies off it by the member's share of the model error.
  const z = conditions.phase === 'drained' ? inputs.curdErrorZ : inputs.milkErrorZ;
  acid[ACID_STATE.curdPH] = traced('pH') - z * modelErrorSd(vat);
}

/** Where the curd was at a moment: in milk, in whey or drained. */
export function phaseAt(course: Course, run: MemberRun, elapsedMin: number): Vat['conditions']['phase'] {
  if (elapsedMin >= endedOf(course, run, 'drain')) return 'drained';
  return elapsedMin >= startedOf(course, run, 'cut') ? 'curd-in-whey' : 'milk';
}

const NEVER = Number.POSITIVE_INFINITY;

function startedOf(course: Course, run: MemberRun, verb: 'cut'): number {
  return run.startMin[course.steps.find((step) => step.verb === verb)?.index ?? -1] ?? NEVER;
}

function endedOf(course: Course, run: MemberRun, verb: 'drain'): number {
  return run.leftMin[course.steps.find((step) => step.verb === verb)?.index ?? -1] ?? NEVER;
}

function standClotting(vat: Vat, course: Course, run: MemberRun): void {
  const rennet = course.steps.find((step) => step.plan.set.ingredient === 'rennet');
  const rennetMin = run.leftMin[rennet?.index ?? -1] ?? Number.NaN;
  if (!(rennetMin <= vat.minute)) return;
  vat.rennetMin = rennetMin;
  const flecks = rennetMin + (run.figures[FIGURE_AT.flocculationMin] ?? Number.NaN);
  if (flecks <= vat.minute) vat.flocculationMin = flecks;
}

/** Serum and its strength that give a curd of this weight and moisture: `curdKgAt` and `curdMoistureAt` turned round. */
function standCurd(vat: Vat, curdKg: number, moisturePercent: number): void {
  const { acid, conditions, inputs, milkKg } = vat;
  const { basis } = inputs;
  const waterKg = (curdKg * moisturePercent) / 100;
  conditions.curdSerumL = ((100 * waterKg) / milkKg - basis.boundWaterKg) / basis.solventWaterKg;
  vat.wheyFraction = wheyFractionForSolvent(basis, conditions.curdSerumL);
  // What the serum carries, lactose and all, counts as its strength here: the weight asks for no more.
  acid[ACID_STATE.curdLactoseMM] = acid[ACID_STATE.curdLactateMM] = 0;
  acid[ACID_STATE.curdStrength] = 0;
  const solidsKg = curdKg - curdKgOf(vat);
  acid[ACID_STATE.curdStrength] = solidsKg / (solventKgOf(vat) * conditions.curdSerumL * basis.otherPerSolventWater);
}

/** A traced quantity at any moment; NaN where the member has none. */
function tracedAt(run: MemberRun, quantity: Traced, elapsedMin: number): number {
  const from = TRACED.indexOf(quantity) * TRACE_POINTS;
  const position = Math.min(Math.max(elapsedMin / TRACE_EVERY_MIN, 0), TRACE_POINTS - 1);
  const row = Math.min(Math.floor(position), TRACE_POINTS - 2);
  const before = run.trace[from + row] ?? Number.NaN;
  const after = run.trace[from + row + 1] ?? Number.NaN;
  if (Number.isNaN(before) || Number.isNaN(after)) return Number.isNaN(before) ? after : before;
  return before + (position - row) * (after - before);
}
