import { ACID_STATE } from '../science/acidification.ts';
import { lossAt } from '../science/vat.ts';
import { coastRiseC, COAST_S } from '../science/heater.ts';
import { judgementThreshold } from '../science/judgements.ts';
import type { Course, CourseStep, Watch } from './course.ts';
import { actsOf, actUpTo, type Act } from './disturb.ts';
import { believedPH, observeJudgement, observeReading } from './observe.ts';
import { TRACED, type MemberRun } from './run.ts';
import { traceFromHere, traceTo } from './trace.ts';
import { advance } from './advance.ts';
import { keep, putBack } from './kept.ts';
import { curdMoistureOf, firmnessOf, wheyPHOf, type Vat } from './vat-state.ts';

/**
 * Walks a vat through time: integration steps aligned with everything that happens (readings, re-warming, the clock of a
 * step, now), end conditions found inside a step, and the trace filled on the way.
 */
export interface Walk {
  readonly course: Course;
  readonly vat: Vat;
  readonly run: MemberRun;
  readonly stepMin: number;
  /** Readings and judgements in time order. */
  readonly observations: readonly Observation[];
  nextObservation: number;
  /** What moves the vat beside the plan, in time order. */
  readonly acts: readonly Act[];
  nextAct: number;
  /** Traced values as they stood before the step being made, and room for those after it. */
  before: Float64Array;
  after: Float64Array;
  tracedTo: number;
}

export interface Observation {
  readonly elapsedMin: number;
  readonly index: number;
  readonly kind: 'reading' | 'judgement';
}

/**
 * Longest integration step [min]: under 0.01 pH and 0.05 K of a fine reference, ends of steps within a minute
 * (`step-size.test.ts`).
 */
export const STEP_MIN = 10;
const STEPS_TO_SUGAR_END = 3; // our own choice

/** A pot kept warm is looked at this often, and brought back to its temperature if it has fallen below. */
export const REWARM_EVERY_MIN = 20; // common practice (no source)
const CLOSE = 1e-9;

/** Everything noted, in time order. */
export function observationsOf(course: Course): Observation[] {
  const { readings, judgements } = course.history;
  return [
    ...readings.map((reading, index) => ({ elapsedMin: reading.elapsedMin, index, kind: 'reading' as const })),
    ...judgements.map((judged, index) => ({ elapsedMin: judged.elapsedMin, index, kind: 'judgement' as const })),
  ].sort((a, b) => a.elapsedMin - b.elapsedMin);
}

export function newWalk(input: {
  course: Course;
  vat: Vat;
  run: MemberRun;
  observations: readonly Observation[];
  acts?: readonly Act[];
  stepMin?: number;
}): Walk {
  const walk: Walk = {
    course: input.course,
    vat: input.vat,
    run: input.run,
    stepMin: input.stepMin ?? STEP_MIN,
    observations: input.observations,
    nextObservation: 0,
    acts: input.acts ?? actsOf(input.course),
    nextAct: 0,
    before: new Float64Array(TRACED.length),
    after: new Float64Array(TRACED.length),
    tracedTo: -1,
  };
  traceFromHere(walk);
  return walk;
}

/**
 * Steps are halved while the flecks are still to come (a rate that follows the cooling milk, and a moment to be met), and
 * where the curd's sugar, used as it is now, would be gone within a few of them: the souring then stops short.
 */
function longestStepMin({ vat, stepMin }: Walk): number {
  if (!Number.isNaN(vat.rennetMin) && Number.isNaN(vat.flocculationMin)) return stepMin / 2;
  const usedPerHour = -(vat.acidWork.k1[ACID_STATE.curdLactoseMM] ?? 0);
  const left = vat.acid[ACID_STATE.curdLactoseMM] ?? 0;
  return usedPerHour * STEPS_TO_SUGAR_END * (stepMin / 60) > left ? stepMin / 2 : stepMin;
}

export interface Leg {
  readonly step: CourseStep;
  /** Where the step ends for sure; the end conditions are then not asked. */
  readonly forcedEndMin: number | null;
  /** The step cannot end before this. */
  readonly notBeforeMin: number;
  readonly deadlineMin: number;
  /** Temperature held by re-warming, or NaN. */
  readonly holdC: number;
  /** When the step itself began, where this leg is not its first. */
  readonly startedMin?: number;
}

/** Moves the vat on until the leg ends. True when its end condition (or its given end) was met before the deadline. */
export function walkLeg(walk: Walk, leg: Leg): boolean {
  const { vat } = walk;
  const watches = leg.forcedEndMin === null ? leg.step.watches : [];
  const thresholds = watches.map((watch) => thresholdOf(watch, vat));
  // The first look is as the step begins: a pot that has cooled while it set is brought back before it is stirred on.
  let nextLookMin = vat.minute;
  const startedMin = leg.startedMin ?? vat.minute;
  const wholeEndMin = leg.forcedEndMin ?? leg.deadlineMin;
  actUpTo(walk);
  let metBefore = met(watches, thresholds, leg, vat, startedMin);
  observeUpTo(walk);
  traceFromHere(walk);
  if (leg.forcedEndMin === null && metBefore >= 0 && vat.minute >= leg.notBeforeMin - CLOSE) return true;
  while (vat.minute < wholeEndMin - CLOSE) {
    let untilMin = Math.min(vat.minute + longestStepMin(walk), wholeEndMin);
    const observation = walk.observations[walk.nextObservation];
    if (observation !== undefined) untilMin = Math.min(untilMin, Math.max(observation.elapsedMin, vat.minute));
    const act = walk.acts[walk.nextAct];
    if (act !== undefined) untilMin = Math.min(untilMin, Math.max(act.elapsedMin, vat.minute));
    if (leg.notBeforeMin > vat.minute + CLOSE) untilMin = Math.min(untilMin, leg.notBeforeMin);
    if (!Number.isNaN(leg.holdC)) untilMin = Math.min(untilMin, nextLookMin);
    untilMin = nextClockEnd(watches, vat, startedMin, untilMin);
    if (untilMin > vat.minute + CLOSE) {
      keep(vat);
      advance(vat, untilMin - vat.minute, leg.step.stirring);
    }
    const metNow = met(watches, thresholds, leg, vat, startedMin);
    if (metNow >= 0 && vat.minute >= leg.notBeforeMin - CLOSE && leg.forcedEndMin === null) {
      if (metBefore < 0 && vat.kept.minute >= leg.notBeforeMin - CLOSE) {
        const valueNow = (): number => met(watches, thresholds, leg, vat, startedMin);
        shorten(walk, leg, { metBefore, metNow, valueNow });
      }
      traceTo(walk);
      return true;
    }
    metBefore = metNow;
    traceTo(walk);
    actUpTo(walk);
    observeUpTo(walk);
    if (!Number.isNaN(leg.holdC) && vat.minute >= nextLookMin - CLOSE) {
      nextLookMin += REWARM_EVERY_MIN;
      if (!vat.isUnheated && Number.isNaN(vat.heldC)) vat.temperatureC = Math.max(vat.temperatureC, leg.holdC);
    }
    traceFromHere(walk);
  }
  return leg.forcedEndMin !== null;
}

/** A condition this near to being met is met: in pH, pascal, percent or minutes, all far below what a maker sees. */
const MET_CLOSELY = 1e-4;
/** Tries at finding where inside a step the condition was met: enough for a hundredth of a minute. */
const LOCATE_TRIES = 5;

/** Redoes the last step so that it ends where the condition was met (regula falsi between its two ends). */
function shorten(walk: Walk, leg: Leg, ends: { metBefore: number; metNow: number; valueNow: () => number }): void {
  const { vat } = walk;
  const { kept } = vat;
  let [early, late] = [0, vat.minute - kept.minute];
  let [valueEarly, valueLate] = [ends.metBefore, ends.metNow];
  if (!Number.isFinite(valueEarly) || valueEarly <= -1e5) return;
  for (let i = 0; i < LOCATE_TRIES; i++) {
    const at = early + ((late - early) * valueEarly) / (valueEarly - valueLate);
    putBack(vat);
    advance(vat, Math.max(at, 1e-6), leg.step.stirring);
    const value = ends.valueNow();
    if (Math.abs(value) < MET_CLOSELY) return;
    if (value < 0) [early, valueEarly] = [at, value];
    else [late, valueLate] = [at, value];
  }
}

/** Ends that the clock alone decides are met exactly, by ending an integration step on them. */
function nextClockEnd(watches: readonly Watch[], vat: Vat, startedMin: number, untilMin: number): number {
  let until = untilMin;
  for (const watch of watches) {
    let at = Number.NaN;
    if (watch.kind === 'time') at = startedMin + minutesOf(watch, vat);
    if (watch.kind === 'flocculation') at = vat.rennetMin + watch.multiplier * (vat.flocculationMin - vat.rennetMin);
    if (at > vat.minute + CLOSE && at < until) until = at;
  }
  return until;
}

const minutesOf = (watch: Watch & { kind: 'time' }, vat: Vat): number =>
  watch.minutes * (watch.byHands ? vat.inputs.pace : 1);

/** Where this member's maker would say "now". */
function thresholdOf(watch: Watch, vat: Vat): number {
  if (watch.kind !== 'judgement') return Number.NaN;
  const { mean, sd } = judgementThreshold({ judgement: watch.judgement, grade: watch.grade });
  return mean + sd * (watch.judgement === 'stretch' ? vat.inputs.stretchZ : vat.inputs.breakZ);
}

/** How far the end condition is met: negative before, zero or more after. */
function met(watches: readonly Watch[], thresholds: readonly number[], leg: Leg, vat: Vat, startedMin: number): number {
  if (watches.length === 0) return -1;
  let result = leg.step.join === 'first' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  for (let i = 0; i < watches.length; i++) {
    const watch = watches[i];
    if (watch === undefined) continue;
    const value = metBy(watch, thresholds[i] ?? 0, vat, startedMin);
    result = leg.step.join === 'first' ? Math.max(result, value) : Math.min(result, value);
  }
  return result;
}

function metBy(watch: Watch, threshold: number, vat: Vat, startedMin: number): number {
  switch (watch.kind) {
    case 'time':
      return vat.minute - startedMin - minutesOf(watch, vat) + CLOSE;
    case 'temperature':
      return vat.temperatureC - watch.atC;
    case 'pH':
      return (
        watch.at - (watch.sample === 'whey' && vat.conditions.phase !== 'drained' ? wheyPHOf(vat) : believedPH(vat))
      );
    case 'flocculation':
      return Number.isNaN(vat.flocculationMin)
        ? -1e6
        : vat.minute - vat.rennetMin - watch.multiplier * (vat.flocculationMin - vat.rennetMin) + CLOSE;
    case 'judgement':
      switch (watch.judgement) {
        case 'stretch':
          return threshold - believedPH(vat);
        case 'cleanBreak':
          return firmnessOf(vat) - threshold;
        case 'grip':
          return threshold - curdMoistureOf(vat);
        case 'wheyTaste':
          return threshold - (vat.conditions.phase === 'drained' ? believedPH(vat) : wheyPHOf(vat));
        case 'tang':
          return vat.inputs.startPH - believedPH(vat) - threshold;
      }
    // Sizes and salt are met out of the vat, by closed forms.
    case 'coreTemperature':
    case 'salt':
      return -1;
  }
}

/** Weighs everything that was noted up to now. */
export function observeUpTo(walk: Walk): void {
  const { vat, run, course } = walk;
  for (;;) {
    const observation = walk.observations[walk.nextObservation];
    if (observation === undefined || observation.elapsedMin > vat.minute + CLOSE) return;
    walk.nextObservation++;
    if (observation.kind === 'reading') {
      const reading = course.history.readings[observation.index];
      if (reading !== undefined) observeReading({ vat, run, course, index: observation.index, reading });
    } else {
      const judged = course.history.judgements[observation.index];
      const at = course.history.readings.length + observation.index;
      if (judged !== undefined) observeJudgement(vat, run, at, judged);
    }
  }
}

/** Where the burner goes off so that this vat coasts to the target [°C]. */
export function turnOffC(vat: Vat, targetC: number): number {
  const lossW = vat.inputs.lossFactor * lossAt(vat.loss, targetC) * (targetC - vat.roomC);
  return (
    targetC -
    coastRiseC({
      heaterW: vat.inputs.heaterW,
      lossW: Math.max(lossW, 0),
      heatCapacityKJPerK: vat.heatCapacityKJPerK,
      coastS: COAST_S.median,
    })
  );
}
