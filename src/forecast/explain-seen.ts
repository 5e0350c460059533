import { firmnessTowards, minutesTowards } from '../science/firmness.ts';
import { judgementThreshold, type JudgementId } from '../science/judgements.ts';
import type { Supposed } from './causes-applied.ts';
import type { CourseStep, Watch } from './course.ts';
import { FIGURE_AT, TRACE_EVERY_MIN, TRACE_POINTS, TRACED, type Figure, type MemberRun, type Traced } from './run.ts';
import type { Vat } from './vat-state.ts';

/** One member's make with a cause at work, read off afterwards: states at a minute, and how long its steps wanted to last. */
export interface Seen {
  readonly supposed: Supposed;
  readonly run: MemberRun;
  /** Minutes from rennet to flecks; large where none came. */
  readonly flecksMin: number;
  readonly rennetMin: number;
  /** Standard normal: how long this maker waits for what does not come. */
  readonly patienceZ: number;
}

/** Flecks that are this far off never come: our own choice. */
const NEVER_MIN = 600;
const LEAST_PROGRESS = 0.02;

/** What a run leaves in its vat and trace; to be called before the vat is used again. */
export function seen(input: { supposed: Supposed; run: MemberRun; vat: Vat; patienceZ: number }): Seen {
  const { vat } = input;
  const wait = Number.isNaN(vat.flocculationMin)
    ? (vat.minute - vat.rennetMin) / Math.max(vat.clotProgress, LEAST_PROGRESS)
    : vat.flocculationMin - vat.rennetMin;
  return {
    supposed: input.supposed,
    run: input.run,
    flecksMin: Math.min(wait, NEVER_MIN),
    rennetMin: vat.rennetMin,
    patienceZ: input.patienceZ,
  };
}

export const figureOf = ({ run }: Pick<Seen, 'run'>, figure: Figure): number =>
  run.figures[FIGURE_AT[figure]] ?? Number.NaN;

/** A traced quantity at a minute, straight between two points; NaN where the member has none. */
export function tracedAt(run: MemberRun, quantity: Traced, minute: number): number {
  const base = TRACED.indexOf(quantity) * TRACE_POINTS;
  const point = (index: number): number =>
    run.trace[base + Math.min(Math.max(index, 0), TRACE_POINTS - 1)] ?? Number.NaN;
  const position = minute / TRACE_EVERY_MIN;
  const below = Math.floor(position);
  const [low, high] = [point(below), point(below + 1)];
  return Number.isNaN(high) ? low : Number.isNaN(low) ? high : low + (position - below) * (high - low);
}

/** Firmness of the gel at a minute [Pa]; 0 before the flecks. */
export function firmnessAt({ supposed, flecksMin, rennetMin }: Seen, minute: number): number {
  return firmnessTowards({
    minutesSinceFlocculation: minute - rennetMin - flecksMin,
    clottingTimeMin: flecksMin,
    fullPa: supposed.inputs.fullFirmnessPa,
  });
}

/** What a judgement looks at, at a minute. */
export function judgedStateAt(member: Seen, judgement: JudgementId, minute: number): number {
  const { run, supposed } = member;
  const pH = (): number => tracedAt(run, 'pH', minute);
  switch (judgement) {
    case 'stretch':
    case 'acidGel':
    case 'flocs':
    case 'millTear':
      return pH();
    case 'cleanBreak':
      return firmnessAt(member, minute);
    case 'grip':
    case 'panTrack':
      return tracedAt(run, 'curdMoisturePercent', minute);
    case 'wheyTaste': {
      const whey = tracedAt(run, 'wheyPH', minute);
      return Number.isNaN(whey) ? pH() : whey;
    }
    case 'tang':
      return supposed.inputs.startPH - pH();
    case 'flocculation':
      return (minute - member.rennetMin) / member.flecksMin;
  }
}

/** Waits longer than this are the same: never. Our own choice. */
const LONGEST_MIN = 720;
const SHORTEST_MIN = 1;

/**
 * Minutes that a step wanted to last in this member's make, by what the plan says ends it: the clock, the flecks, the judgement
 * of this maker, the acid as this meter shows it. Read from the trace where it was reached, else drawn on by its last slope.
 * @returns NaN where nothing that ends it is followed here (a temperature)
 */
export function wantedMin(member: Seen, step: CourseStep): number {
  const startMin = member.run.startMin[step.index] ?? Number.NaN;
  const each = step.watches
    .map((watch) => watchedMin(member, watch, { step, startMin }))
    .filter((min) => !Number.isNaN(min));
  if (each.length === 0 || Number.isNaN(startMin)) return Number.NaN;
  const min = step.join === 'all' ? Math.max(...each) : Math.min(...each);
  return Math.min(Math.max(min, SHORTEST_MIN), LONGEST_MIN);
}

function watchedMin(member: Seen, watch: Watch, at: { step: CourseStep; startMin: number }): number {
  const { inputs, variant } = member.supposed;
  switch (watch.kind) {
    case 'time':
      return watch.minutes * (watch.byHands ? inputs.pace : 1);
    case 'flocculation':
      return watch.multiplier * member.flecksMin + member.rennetMin - at.startMin;
    case 'pH': {
      // A curd's or a milk's own pH is what is traced; whoever ends by a meter ends by what it shows.
      const quantity = watch.sample === 'whey' ? 'wheyPH' : 'pH';
      return fallsTo(member, quantity, { ...at, level: watch.at - inputs.meterBiasPH });
    }
    case 'judgement': {
      const { mean, sd } = judgementThreshold(watch);
      const level = mean + sd * (watch.judgement === 'stretch' ? inputs.stretchZ : inputs.breakZ);
      if (watch.judgement === 'stretch') return fallsTo(member, 'pH', { ...at, level });
      if (watch.judgement === 'grip') return fallsTo(member, 'curdMoisturePercent', { ...at, level });
      if (watch.judgement !== 'cleanBreak') return Number.NaN;
      const { flecksMin, rennetMin } = member;
      const gel = { clottingTimeMin: flecksMin, fullPa: inputs.fullFirmnessPa };
      return rennetMin + flecksMin + minutesTowards({ ...gel, firmnessPa: Math.max(level, 1) }) - at.startMin;
    }
    case 'coreTemperature':
      return variant.decisions.coolMin / inputs.conductivityFactor;
    case 'salt':
      return variant.decisions.brine?.minutes ?? Number.NaN;
    case 'days':
      return 1440 * watch.days;
    case 'moisture':
      return fallsTo(member, 'curdMoisturePercent', { ...at, level: watch.percent });
    case 'mass':
    case 'cooled':
    case 'temperature':
      return Number.NaN;
  }
}

const LEAST_SLOPE = 2e-4; // a quantity that falls slower than this a minute has stopped: our own choice

/** Minutes from a step's start until a falling quantity reaches a level. */
function fallsTo(member: Seen, quantity: Falling, at: FallAt): number {
  const { startedMin } = at.step;
  if (startedMin === null) return firstBelow(member, quantity, at);
  // Noted: what was read meanwhile has set the trace right, so where it stands at the end counts, and how fast it falls there.
  const noted = member.supposed.variant.course;
  const next = noted.steps.slice(at.step.index + 1).find((later) => later.startedMin !== null);
  const endMin = at.step.endedMin ?? next?.startedMin ?? noted.nowMin;
  const lasted = endMin - startedMin;
  if (lasted < SHORTEST_MIN) return firstBelow(member, quantity, at);
  const { slow, fast } = SLOPES[quantity];
  const slope = slopeAt(member.run, quantity, { fromMin: startedMin, toMin: endMin });
  const leftMin = (tracedAt(member.run, quantity, endMin) - at.level) / Math.min(Math.max(slope, slow), fast);
  return lasted + Math.min(Math.max(leftMin, FURTHEST_MIN.before), FURTHEST_MIN.after);
}

/** How a wait is drawn on past its end: no slower and no faster than this a minute, and no further [min]. Our own choice. */
const SLOPES = { pH: { slow: 0.003, fast: 0.02 }, wheyPH: { slow: 0.003, fast: 0.02 }, curdMoisturePercent: { slow: 0.1, fast: 1 } } as const; // prettier-ignore
const FURTHEST_MIN = { before: -60, after: 150 } as const;
type Falling = keyof typeof SLOPES;

interface FallAt {
  readonly step: CourseStep;
  readonly startMin: number;
  readonly level: number;
}

/** The slope is the middle one of so many minutes, so that a reading's jump does not count: our own choice. */
const SLOPE_OVER_MIN = 30;

function slopeAt(run: MemberRun, quantity: Traced, span: { fromMin: number; toMin: number }): number {
  const last = Math.floor(span.toMin / TRACE_EVERY_MIN);
  const first = Math.max(Math.ceil(span.fromMin / TRACE_EVERY_MIN), last - SLOPE_OVER_MIN / TRACE_EVERY_MIN);
  const slopes: number[] = [];
  for (let p = first; p < last; p++) {
    const minute = p * TRACE_EVERY_MIN;
    slopes.push(
      (tracedAt(run, quantity, minute) - tracedAt(run, quantity, minute + TRACE_EVERY_MIN)) / TRACE_EVERY_MIN,
    );
  }
  return slopes.sort((a, b) => a - b)[slopes.length >> 1] ?? 0;
}

/** In a make that is only foreseen: the first time that the trace is below the level. */
function firstBelow({ run }: Seen, quantity: Falling, at: FallAt): number {
  const { startMin, level } = at;
  const endMin = run.leftMin[at.step.index] ?? startMin;
  let before = { minute: startMin, value: tracedAt(run, quantity, startMin) };
  if (before.value <= level) return 0;
  for (let p = Math.floor(startMin / TRACE_EVERY_MIN) + 1; p * TRACE_EVERY_MIN <= endMin; p++) {
    const now = { minute: p * TRACE_EVERY_MIN, value: tracedAt(run, quantity, p * TRACE_EVERY_MIN) };
    if (Number.isNaN(now.value)) break;
    if (now.value <= level) {
      const share = (before.value - level) / (before.value - now.value);
      return before.minute + share * (now.minute - before.minute) - startMin;
    }
    before = now;
  }
  // Met between two points of the trace: the walk itself knows when.
  if (Number.isFinite(run.endMin[at.step.index] ?? Number.NaN)) return endMin - startMin;
  const slope = slopeAt(run, quantity, { fromMin: startMin, toMin: before.minute });
  return slope > LEAST_SLOPE ? before.minute + (before.value - level) / slope - startMin : LONGEST_MIN;
}
