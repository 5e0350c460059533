import { curdle } from './additions.ts';
import { leaveVat, readyToStretch, type Decisions, type StepEnd } from './after-vat.ts';
import type { Course, CourseStep } from './course.ts';
import type { Inputs } from './inputs.ts';
import { curdMoistureOf } from './contents.ts';
import { believedPH, IN_THE_VAT } from './observe.ts';
import { emptyRun, type MemberRun, type RunSizes } from './run.ts';
import { resetVat, type Vat } from './vat-state.ts';
import { beginWork, finishWork, salt, set, trueC } from './vat-work.ts';
import { traceTo } from './trace.ts';
import { newWalk, observeUpTo, turnOffC, walkLeg, type Leg, type Observation, type Walk } from './walk.ts';

const PHASE = { milk: 0, 'curd-in-whey': 1, drained: 2 } as const;
const OVERHEATED_C = 1; // our own choice: above what a coasting burner is out by
const LONGEST_BOIL_MIN = 1440; // our own choice: a day over the burner has failed
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
  for (const step of course.steps) {
    if (step.index >= course.leavesAt) break;
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
  if (step.verb === 'drySalt') saltHalfway(walk, step, forcedEndMin);
  const reached =
    step.heating === 'heat-up'
      ? heated(walk, step, forcedEndMin)
      : keepOn(walk, step, forcedEndMin, run.startMin[step.index] ?? startMin);
  vat.heaterW = 0;
  finishWork(walk, step);
  traceTo(walk);
  run.leftMin[step.index] = vat.minute;
  // A rest that never came to its end is left in the end, and says so; other waits are simply over.
  run.endMin[step.index] = reached || step.verb !== 'restToAcid' ? vat.minute : Number.POSITIVE_INFINITY;
  run.endPH[step.index] = believedPH(vat);
  run.endTemperatureC[step.index] = vat.temperatureC;
  if (course.after.asksMoisture) run.endMoisturePercent[step.index] = curdMoistureOf(vat);
  run.phase[step.index] = PHASE[vat.conditions.phase];
}

/** Warmed to where it is to be; with acid to come, that then goes in, and the flecks are waited for. */
function heated(walk: Walk, step: CourseStep, forcedEndMin: number | null): boolean {
  const reached = heatUp(walk, step, forcedEndMin);
  if (step.verb !== 'heatWithAcid') return reached;
  finishWork(walk, step);
  curdle(walk.vat);
  return forcedEndMin === null ? keepOn(walk, step, null, walk.vat.minute) : reached;
}

/** A leg that ends at a given minute, whatever is seen meanwhile. */
function untilGiven(given: { step: CourseStep; startedMin: number; endMin: number; holdC: number }): Leg {
  const { step, startedMin, endMin, holdC } = given;
  return { step, ends: step, startedMin, forcedEndMin: endMin, notBeforeMin: 0, deadlineMin: endMin, holdC };
}

/** Salt goes on little by little: as if all of it halfway. */
function saltHalfway(walk: Walk, step: CourseStep, forcedEndMin: number | null): void {
  const { vat } = walk;
  const minutes = step.watches.reduce((most, watch) => Math.max(most, watch.kind === 'time' ? watch.minutes : 0), 0);
  const lastsMin = forcedEndMin === null ? minutes * vat.inputs.pace : Math.max(forcedEndMin - vat.minute, 0);
  const endMin = vat.minute + lastsMin / 2;
  if (lastsMin > 0) walkLeg(walk, untilGiven({ step, startedMin: vat.minute, endMin, holdC: Number.NaN }));
  salt(walk, step);
}

/** A step that is not a heating: as it was held at first, where that was changed on the way, and then as it is held now. */
function keepOn(walk: Walk, step: CourseStep, forcedEndMin: number | null, startedMin: number): boolean {
  const { vat, course } = walk;
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
    holdC: heldAtC(vat, step, step.atC),
  });
}

/** Temperature that a step is held at, NaN where it is not. */
const heldAtC = (vat: Vat, step: CourseStep, atC: number): number =>
  step.heating === 'hold' ? trueC(vat, atC) : Number.NaN;

const isComing = (course: Course, step: CourseStep): boolean => course.mayEndFromMin > 0 && step.startedMin === null;

function deadlineOf(step: CourseStep): number {
  if (step.verb === 'restToAcid') return step.longestMin;
  if (step.verb === 'boilDown') return LONGEST_BOIL_MIN;
  return Math.max(2 * (step.expectedMin ?? (step.verb === 'set' ? 90 : 30)), step.verb === 'set' ? 180 : 10);
}

/** What happens as a step begins. */
function begin(walk: Walk, step: CourseStep): void {
  walk.vat.heaterW = 0;
  beginWork(walk, step);
  if (step.verb === 'stretch') readyToStretch(walk, step);
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
