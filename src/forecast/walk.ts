import { lossAt } from '../science/vat.ts';
import { coastRiseC, COAST_S } from '../science/heater.ts';
import type { Course, CourseStep } from './course.ts';
import { actsOf, actUpTo, type Act } from './disturb.ts';
import { observeJudgement, observeReading } from './observe.ts';
import { TRACED, type MemberRun } from './run.ts';
import { nextStepMin, STEP_MIN } from './step-length.ts';
import { traceFromHere, traceTo } from './trace.ts';
import { advance } from './advance.ts';
import { keep, putBack } from './kept.ts';
import type { Vat } from './vat-state.ts';
import { howFarMet, nextClockEnd, watchFor, type Watching } from './watching.ts';

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
  readonly watching: Watching;
  /** Traced values as they stood before the step being made, halfway through it and after it. */
  before: Float64Array;
  readonly middle: Float64Array;
  after: Float64Array;
  /** Room for the curd as it is traced. */
  readonly curd: Vat['middle']['curd'];
  tracedTo: number;
}

export interface Observation {
  readonly elapsedMin: number;
  readonly index: number;
  readonly kind: 'reading' | 'judgement';
}

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
    watching: { watches: [], join: 'first', thresholds: [] },
    before: new Float64Array(TRACED.length),
    middle: new Float64Array(TRACED.length),
    after: new Float64Array(TRACED.length),
    curd: { wheyFraction: 0, serumL: 1, strength: 1, lactoseMM: 0 },
    tracedTo: -1,
  };
  traceFromHere(walk);
  return walk;
}

export interface Leg {
  readonly step: CourseStep;
  /** What ends it: the step's own watches, but while it is heated. */
  readonly ends: Pick<CourseStep, 'watches' | 'join'>;
  /** When the step itself began: before this leg, where it is not the step's first. */
  readonly startedMin: number;
  /** Where the step ends for sure; the end conditions are then not asked. */
  readonly forcedEndMin: number | null;
  /** The step cannot end before this. */
  readonly notBeforeMin: number;
  readonly deadlineMin: number;
  /** Temperature held by re-warming, or NaN. */
  readonly holdC: number;
}

const NOTHING: Leg['ends'] = { watches: [], join: 'first' };

/** Moves the vat on until the leg ends. True when its end condition (or its given end) was met before the deadline. */
export function walkLeg(walk: Walk, leg: Leg): boolean {
  const { vat, watching } = walk;
  const { forcedEndMin, notBeforeMin, holdC, step } = leg;
  const isHeld = !Number.isNaN(holdC);
  watchFor(watching, forcedEndMin === null ? leg.ends : NOTHING, vat, leg.startedMin);
  // The first look is as the step begins: a pot that has cooled while it set is brought back before it is stirred on.
  let nextLookMin = vat.minute;
  const wholeEndMin = forcedEndMin ?? leg.deadlineMin;
  actUpTo(walk);
  let metBefore = howFarMet(watching, vat);
  observeUpTo(walk);
  traceFromHere(walk);
  if (metBefore >= 0 && vat.minute >= notBeforeMin - CLOSE) return true;
  while (vat.minute < wholeEndMin - CLOSE) {
    const untilMin = nextStop(walk, isHeld ? Math.min(wholeEndMin, nextLookMin) : wholeEndMin, notBeforeMin);
    if (untilMin > vat.minute + CLOSE) {
      keep(vat);
      advance(vat, untilMin - vat.minute, step.stirring);
    }
    const metNow = howFarMet(watching, vat);
    if (metNow >= 0 && vat.minute >= notBeforeMin - CLOSE) {
      if (metBefore < 0 && vat.kept.minute >= notBeforeMin - CLOSE) shorten(walk, leg, metBefore, metNow);
      traceTo(walk);
      return true;
    }
    metBefore = metNow;
    traceTo(walk);
    let isChanged = happenedBy(walk);
    if (isHeld && vat.minute >= nextLookMin - CLOSE) {
      nextLookMin += REWARM_EVERY_MIN;
      isChanged = true;
      if (!vat.isUnheated && Number.isNaN(vat.heldC)) vat.temperatureC = Math.max(vat.temperatureC, holdC);
    }
    if (isChanged) traceFromHere(walk);
  }
  return forcedEndMin !== null;
}

/** Where the next integration step ends: never past anything that happens, that the clock ends, or `atMostMin`. */
function nextStop(walk: Walk, atMostMin: number, notBeforeMin: number): number {
  const { vat } = walk;
  const now = vat.minute;
  let stop = atMostMin;
  const observation = walk.observations[walk.nextObservation];
  if (observation !== undefined) stop = Math.min(stop, Math.max(observation.elapsedMin, now));
  const act = walk.acts[walk.nextAct];
  if (act !== undefined) stop = Math.min(stop, Math.max(act.elapsedMin, now));
  if (notBeforeMin > now + CLOSE) stop = Math.min(stop, notBeforeMin);
  stop = nextClockEnd(walk.watching, vat, stop);
  const minutes = nextStepMin(vat, walk.stepMin, stop - now);
  return minutes === stop - now ? stop : now + minutes;
}

/** Lets everything happen and weighs everything noted by now; true when there was anything. */
function happenedBy(walk: Walk): boolean {
  const before = walk.nextAct + walk.nextObservation;
  actUpTo(walk);
  observeUpTo(walk);
  return walk.nextAct + walk.nextObservation > before;
}

/** A condition this near to being met is met: in pH, pascal, percent or minutes, all far below what a maker sees. */
const MET_CLOSELY = 1e-4;
/** Tries at finding where inside a step the condition was met: enough for a hundredth of a minute. */
const LOCATE_TRIES = 5;

/** Redoes the last step so that it ends where the condition was met (regula falsi between its two ends). */
function shorten(walk: Walk, leg: Leg, metBefore: number, metNow: number): void {
  const { vat, watching } = walk;
  if (metNow < MET_CLOSELY || !Number.isFinite(metBefore) || metBefore <= -1e5) return;
  let early = 0;
  let late = vat.minute - vat.kept.minute;
  let valueEarly = metBefore;
  let valueLate = metNow;
  for (let i = 0; i < LOCATE_TRIES; i++) {
    const at = early + ((late - early) * valueEarly) / (valueEarly - valueLate);
    putBack(vat);
    advance(vat, Math.max(at, 1e-6), leg.step.stirring);
    const value = howFarMet(watching, vat);
    if (Math.abs(value) < MET_CLOSELY) return;
    if (value < 0) {
      early = at;
      valueEarly = value;
    } else {
      late = at;
      valueLate = value;
    }
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
