import { newOrdering, sortSample, spreadBetween } from '../numbers/sort.ts';
import { quantileSorted, spreadOfSorted, type Spread } from '../numbers/stats.ts';
import { leastHalfWidthMin, twentyDots, widened } from './bands.ts';
import type { Course, CourseStep } from './course.ts';
import type { AimForecast, Needs, Outcome, StepForecast } from './forecast.ts';
import { FIGURE_AT, type Figure, type MemberRun } from './run.ts';

/** One number of every member. */
export function valuesOf(runs: readonly MemberRun[], of: (run: MemberRun) => number | undefined): Float64Array {
  const values = new Float64Array(runs.length);
  for (let i = 0; i < runs.length; i++) {
    const run = runs[i];
    values[i] = (run === undefined ? undefined : of(run)) ?? Number.NaN;
  }
  return values;
}

/** One array of each member: its figures, its steps' ends, ... */
type Own = readonly Float64Array[];

const ownOf = (runs: readonly MemberRun[], of: (run: MemberRun) => Float64Array): Own => runs.map(of);

/**
 * The numbers of all members at each place in turn, in the members' order, for whoever asks for every place: each member is
 * read once, from start to end.
 */
function byPlace(own: Own): (place: number) => Float64Array {
  const members = own.length;
  const places = own[0]?.length ?? 0;
  const all = new Float64Array(places * members);
  for (let i = 0; i < members; i++) {
    const numbers = own[i];
    if (numbers === undefined) continue;
    for (let place = 0; place < places; place++) all[place * members + i] = numbers[place] ?? Number.NaN;
  }
  return (place) => all.subarray(place * members, (place + 1) * members);
}

/** The number that every member has at one place, in the members' order. */
function allAt(own: Own, place: number, into: Float64Array): Float64Array {
  for (let i = 0; i < own.length; i++) into[i] = own[i]?.[place] ?? Number.NaN;
  return into;
}

/** Takes the spread of one number over members of equal weight; null where fewer than half have it. */
interface Spreads {
  of(values: Float64Array): Spread | null;
  at(own: Own, place: number): Spread | null;
}

/** With its scratch. A loop: to filter an array of numbers takes several times as long as to spread it. */
function newSpreads(members: number): Spreads {
  const work = newOrdering(members);
  const all = new Float64Array(members);
  const there = new Float64Array(members);
  const of = (values: Float64Array): Spread | null => {
    let count = 0;
    for (let i = 0; i < values.length; i++) {
      const value = values[i] ?? Number.NaN;
      if (!Number.isNaN(value)) there[count++] = value;
    }
    return count === 0 || count < values.length / 2 ? null : spreadBetween(there, 0, count, work);
  };
  return { of, at: (own, place) => of(allAt(own, place, all)) };
}

/** Spreads of single figures. */
function figureSpreads(runs: readonly MemberRun[], spreads: Spreads): (figure: Figure) => Spread | null {
  const figures = ownOf(runs, (run) => run.figures);
  return (figure) => spreads.at(figures, FIGURE_AT[figure]);
}

const NOTHING: Spread = { p5: Number.NaN, p25: Number.NaN, p50: Number.NaN, p75: Number.NaN, p95: Number.NaN };

/** Every step's start and end, with the floors on the bands of times still to come. */
export function stepForecasts(course: Course, runs: readonly MemberRun[]): StepForecast[] {
  let hasAcidWait = false;
  const work = newOrdering(runs.length);
  const spreads = newSpreads(runs.length);
  const startMin = byPlace(ownOf(runs, (run) => run.startMin));
  const endMin = byPlace(ownOf(runs, (run) => run.endMin));
  const endPH = byPlace(ownOf(runs, (run) => run.endPH));
  const endTemperatureC = byPlace(ownOf(runs, (run) => run.endTemperatureC));
  return course.steps.map((step) => {
    const state = stateOf(course, step);
    // From the first rest on, every later time inherits that rest's own uncertainty, and with it its floor.
    if (step.verb === 'restToAcid' && state !== 'done') hasAcidWait = true;
    const phase = phaseOf(runs, step);
    const { nowMin, mayEndFromMin } = course;
    const timed = (values: Float64Array, floored: boolean): Float64Array => {
      const sorted = sortSample(values, work);
      if (!floored || state === 'done') return sorted;
      return widened({
        values: sorted,
        leastHalfWidthMin: leastHalfWidthMin({ remainingMin: quantileSorted(sorted, 0.5) - mayEndFromMin, phase }),
        notBeforeMin: mayEndFromMin,
      });
    };
    const ends = timed(endMin(step.index), hasAcidWait);
    const starts = timed(startMin(step.index), hasAcidWait && step.verb !== 'restToAcid');
    return {
      stepId: step.id,
      state,
      startMin: spreadOfSorted(starts),
      endMin: spreadOfSorted(ends),
      endDots: twentyDots(ends),
      phase,
      looksMin: looks(step, ends, nowMin),
      endPH: spreads.of(endPH(step.index)),
      endTemperatureC: spreads.of(endTemperatureC(step.index)),
    };
  });
}

function stateOf(course: Course, step: CourseStep): StepForecast['state'] {
  if (step.endedMin !== null) return 'done';
  const isPassed = course.steps.slice(step.index + 1).some((later) => later.startedMin !== null);
  if (isPassed) return 'done';
  return step.startedMin === null ? 'coming' : 'running';
}

function phaseOf(runs: readonly MemberRun[], step: CourseStep): StepForecast['phase'] {
  const phase = runs[0]?.phase[step.index] ?? 0;
  return (['milk', 'curd-in-whey', 'drained', 'after'] as const)[phase] ?? 'after';
}

const FIRST_LOOK_AT = 0.1; // the first test piece when one make in ten would be ready: our own choice
const LOOK_AGAIN_MIN = { set: 5, restToAcid: 15 } as const; // clean break each 5, test piece each 15 to 30 min: common practice (no source)

/** When to look first and when again, for steps that a judgement ends. */
function looks(step: CourseStep, ends: Float64Array, nowMin: number): number[] {
  const isJudged = step.watches.some((watch) => watch.kind === 'judgement' || watch.kind === 'pH');
  if (!isJudged) return [];
  const first = quantileSorted(ends, FIRST_LOOK_AT);
  if (!Number.isFinite(first)) return [];
  const every = step.verb === 'set' ? LOOK_AGAIN_MIN.set : LOOK_AGAIN_MIN.restToAcid;
  const start = Math.max(first, nowMin);
  return [start, start + every, start + 2 * every];
}

/** The finished cheese and the way there. */
export function outcomeOf(course: Course, runs: readonly MemberRun[]): Outcome {
  const of = figureSpreads(runs, newSpreads(runs.length));
  const spread = (figure: Figure): Spread => of(figure) ?? NOTHING;
  const planned = course.steps
    .filter((step) => step.verb === 'restToAcid')
    .reduce((sum, step) => sum + (step.expectedMin ?? 0), 0);
  const within = runs.filter((run) => (run.figures[FIGURE_AT.restMin] ?? Number.POSITIVE_INFINITY) <= planned).length;
  return {
    cheeseKg: spread('cheeseKg'),
    curdKg: spread('curdKg'),
    moisturePercent: spread('moisturePercent'),
    fatInDryMatterPercent: spread('fatInDryMatterPercent'),
    saltPercent: spread('saltPercent'),
    saltInMoisturePercent: spread('saltInMoisturePercent'),
    pHAtStretch: spread('pHAtStretch'),
    wheyL: spread('wheyL'),
    pieces: spread('pieces'),
    readyWithinPlannedRest: isStretched(course) ? (runs.length === 0 ? 0 : within / runs.length) : Number.NaN,
    cultureToReadyMin: spread('cultureToReadyMin'),
  };
}

const isStretched = ({ steps }: Course): boolean => steps.some((step) => step.verb === 'stretch');

/** What must be hot, cold, mixed or lifted, and how much of it. */
export function needsOf(course: Course, runs: readonly MemberRun[]): Needs {
  const spreads = newSpreads(runs.length);
  const spread = figureSpreads(runs, spreads);
  const offC = ownOf(runs, (run) => run.heatOffC);
  const heatOffC = course.steps.flatMap((step) => {
    const off = spreads.at(offC, step.index);
    const targetC = step.plan.set.toC;
    if (off === null || typeof targetC !== 'number') return [];
    const minutes = spreads.of(
      valuesOf(runs, (run) => (run.endMin[step.index] ?? Number.NaN) - (run.startMin[step.index] ?? Number.NaN)),
    );
    return minutes === null ? [] : [{ stepId: step.id, offC: off, targetC, minutes }];
  });
  const stretch = course.steps.find((step) => step.verb === 'stretch')?.plan.set.waterC;
  return {
    heatOffC,
    wheyDrawnL: spread('wheyDrawnL'),
    wheyDrawnCm: spread('wheyDrawnCm'),
    washWaterL: spread('washWaterL'),
    stretchWaterKg: spread('stretchWaterKg'),
    stretchWaterC: typeof stretch === 'number' ? stretch : null,
    stretchWaterHeatMin: spread('stretchWaterHeatMin'),
    iceKg: spread('iceKg'),
    coolMin: spread('coolMin'),
    brineKg: spread('brineKg'),
    brineSaltKg: spread('brineSaltKg'),
    brineMin: spread('brineMin'),
    filledPotKg: spread('filledPotKg'),
  };
}

const AIM_FIGURE: Partial<Record<string, Figure>> = {
  moisturePercent: 'moisturePercent',
  fatInDryMatterPercent: 'fatInDryMatterPercent',
  saltPercent: 'saltPercent',
  saltInMoisturePercent: 'saltInMoisturePercent',
  cheesePerMilkKgPerL: 'cheesePerMilkKgPerL',
};

/** How each aim of the make is likely to come out. Aims the simulator has no figure for are left out. */
export function aimForecasts(course: Course, runs: readonly MemberRun[]): AimForecast[] {
  const spreads = newSpreads(runs.length);
  return course.plan.make.aims.flatMap((aim, index) => {
    const figure = AIM_FIGURE[aim.quantity];
    const step = course.steps.find((candidate) => candidate.id === aim.moment);
    const souredAt = Math.min(step?.index ?? course.steps.length, course.leavesAt - 1);
    const values =
      aim.quantity === 'pH'
        ? // Once out of the vat's equations the cheese keeps the pH that it left with.
          valuesOf(runs, (run) => run.endPH[souredAt])
        : aim.quantity === 'moisturePercent' && step !== undefined
          ? valuesOf(runs, (run) => run.endMoisturePercent[step.index])
          : valuesOf(runs, (run) => (figure === undefined ? Number.NaN : run.figures[FIGURE_AT[figure]]));
    const spread = spreads.of(values);
    if (spread === null) return [];
    const there = values.reduce((sum, value) => sum + (Number.isNaN(value) ? 0 : 1), 0);
    const met = values.reduce((sum, value) => sum + (value >= aim.low && value <= aim.high ? 1 : 0), 0);
    return [{ aim: index, spread, probability: met / there }];
  });
}
