import { stretchesOf } from './stretches.ts';

/**
 * Where everything on the time line stands. Pure: minutes and pixels in, marks out; the drawing is `Timeline.tsx`,
 * and the same marks serve plan, vat and paper.
 */

/** One step as the time line takes it, all times in milliseconds UTC. */
export interface TimelineStep {
  readonly id: string;
  readonly name: string;
  /** Number on screen and on paper, 1 for the first. */
  readonly number: number;
  readonly state: 'done' | 'running' | 'coming';
  readonly startAt: number;
  readonly endAt: number;
  /** Nine times in ten the end falls between these; equal to `endAt` once the step is over. */
  readonly endEarlyAt: number;
  readonly endLateAt: number;
  /** Minutes of attention at the start, during and at the end. */
  readonly handsMin: { readonly start: number; readonly during: number; readonly end: number };
}

export interface TimelineInput {
  readonly steps: readonly TimelineStep[];
  /** Null on paper and in a plan that has not begun. */
  readonly nowAt: number | null;
  /** Minutes that local clocks are ahead of UTC, so that graduations stand on round clock times. */
  readonly utcOffsetMin: number;
  readonly pxPerMin: number;
  /** Least distance between two names, in px: one for all, or by the name that is above, which may take several lines. */
  readonly labelGapPx: number | ((name: string) => number);
  /** Room for this many whiskers beside each other; those that find none are left out, the latest steps first. All if left out. */
  readonly mostLanes?: number;
  /** The same steps as they were before a change, drawn behind; none where nothing was changed. */
  readonly was?: readonly TimelineStep[] | undefined;
  /** Another scale than the steps' own, so that several lines side by side share one; what lies before it gets places above 0. */
  readonly frame?: { readonly fromAt: number; readonly toAt: number } | undefined;
}

export interface Graduation {
  readonly yPx: number;
  readonly at: number;
  /** Half-hours are long and carry the time. */
  readonly long: boolean;
}

export interface Block {
  readonly yPx: number;
  readonly heightPx: number;
  readonly kind: 'hands' | 'waiting';
  readonly tone: 'past' | 'now' | 'future';
}

export interface Whisker {
  readonly stepId: string;
  readonly topPx: number;
  readonly bottomPx: number;
  readonly middlePx: number;
  /** 0 is beside the scale; overlapping whiskers take the next lane. */
  readonly lane: number;
}

/** Where a step stood before a change: its start, and its end's span where the step has a whisker now. */
export interface Ghost {
  readonly stepId: string;
  readonly startPx: number;
  readonly whisker: Whisker | null;
}

export interface Label {
  readonly stepId: string;
  readonly number: number;
  readonly name: string;
  readonly state: TimelineStep['state'];
  /** Where the step starts on the scale. */
  readonly anchorPx: number;
  /** Where its name is written; at or below the anchor. */
  readonly yPx: number;
  readonly startAt: number;
  /** When it started before a change; null where it starts at the same minute. */
  readonly wasStartAt: number | null;
}

export interface TimelineLayout {
  readonly heightPx: number;
  readonly graduations: readonly Graduation[];
  readonly blocks: readonly Block[];
  readonly whiskers: readonly Whisker[];
  readonly ghosts: readonly Ghost[];
  readonly lanes: number;
  readonly labels: readonly Label[];
  readonly nowPx: number | null;
  readonly nowAt: number | null;
}

const MINUTE_MS = 60_000;
const SHORT_STEP_MIN = 10;
const LONG_STEP_MIN = 30;
const LEAST_BLOCK_PX = 2;
const LEAST_WHISKER_MIN = 2;

/**
 * Lays out the time line from the first step's start to the last likely end.
 * @param input steps in order of work; see the types above
 * @returns marks in px from the top of the drawing; empty when there are no steps
 */
export function layoutTimeline(input: TimelineInput): TimelineLayout {
  const first = input.steps[0];
  if (first === undefined) {
    return {
      heightPx: 0,
      graduations: [],
      blocks: [],
      whiskers: [],
      ghosts: [],
      lanes: 0,
      labels: [],
      nowPx: null,
      nowAt: null,
    };
  }
  const was = new Map((input.was ?? []).map((step) => [step.id, step]));
  const own = spanOf([...input.steps, ...was.values()]);
  const span = input.frame ?? own;
  const fromAt = roundDown(Math.min(span.fromAt, input.nowAt ?? span.fromAt), input.utcOffsetMin);
  const toAt = roundUp(Math.max(span.toAt, input.nowAt ?? span.toAt), input.utcOffsetMin);
  const yOf = (at: number): number => ((at - fromAt) / MINUTE_MS) * input.pxPerMin;
  const whiskers = layWhiskers({ steps: input.steps, yOf, mostLanes: input.mostLanes ?? Infinity });
  const { labelGapPx } = input;
  const gapOf = typeof labelGapPx === 'number' ? (): number => labelGapPx : labelGapPx;
  const labels = layLabels({ steps: input.steps, was, yOf, gapOf });
  const lastLabel = labels.at(-1);
  return {
    heightPx: Math.max(yOf(toAt), (lastLabel?.yPx ?? 0) + gapOf(lastLabel?.name ?? '')),
    graduations: graduate({ fromAt, toAt, utcOffsetMin: input.utcOffsetMin, yOf }),
    blocks: input.steps.flatMap((step) => blocksOf({ step, nowAt: input.nowAt, yOf })),
    whiskers,
    ghosts: input.steps.flatMap((step) => ghostOf({ step, was: was.get(step.id), whiskers, yOf })),
    lanes: whiskers.reduce((most, whisker) => Math.max(most, whisker.lane + 1), 0),
    labels,
    nowPx: input.nowAt === null ? null : yOf(input.nowAt),
    nowAt: input.nowAt,
  };
}

/** From the first start to the last likely end. */
export function spanOf(steps: readonly TimelineStep[]): { fromAt: number; toAt: number } {
  let fromAt = Infinity;
  let toAt = -Infinity;
  for (const step of steps) {
    fromAt = Math.min(fromAt, step.startAt);
    toAt = Math.max(toAt, step.endAt, Number.isFinite(step.endLateAt) ? step.endLateAt : step.endAt);
  }
  return { fromAt, toAt };
}

const localMinutes = (at: number, utcOffsetMin: number): number => at / MINUTE_MS + utcOffsetMin;

function roundDown(at: number, utcOffsetMin: number): number {
  const minutes = Math.floor(localMinutes(at, utcOffsetMin) / SHORT_STEP_MIN) * SHORT_STEP_MIN;
  return (minutes - utcOffsetMin) * MINUTE_MS;
}

function roundUp(at: number, utcOffsetMin: number): number {
  const minutes = Math.ceil(localMinutes(at, utcOffsetMin) / SHORT_STEP_MIN) * SHORT_STEP_MIN;
  return (minutes - utcOffsetMin) * MINUTE_MS;
}

function graduate(input: {
  readonly fromAt: number;
  readonly toAt: number;
  readonly utcOffsetMin: number;
  readonly yOf: (at: number) => number;
}): Graduation[] {
  const graduations: Graduation[] = [];
  for (let at = input.fromAt; at <= input.toAt; at += SHORT_STEP_MIN * MINUTE_MS) {
    const long = Math.round(localMinutes(at, input.utcOffsetMin)) % LONG_STEP_MIN === 0;
    graduations.push({ at, yPx: input.yOf(at), long });
  }
  return graduations;
}

/** Stretches of one step in order: attention at the start (and during), waiting, attention at the end. */
function blocksOf(input: {
  readonly step: TimelineStep;
  readonly nowAt: number | null;
  readonly yOf: (at: number) => number;
}): Block[] {
  const { step, nowAt, yOf } = input;
  return stretchesOf(step)
    .flatMap((stretch) => cutAtNow({ ...stretch, state: step.state, nowAt }))
    .map((piece) => ({
      yPx: yOf(piece.fromAt),
      heightPx: Math.max(LEAST_BLOCK_PX, yOf(piece.toAt) - yOf(piece.fromAt)),
      kind: piece.kind,
      tone: piece.tone,
    }));
}

/** The running step is rim up to its likely end; what is behind the now-line is ink. */
function cutAtNow(stretch: {
  readonly kind: Block['kind'];
  readonly fromAt: number;
  readonly toAt: number;
  readonly state: TimelineStep['state'];
  readonly nowAt: number | null;
}): { kind: Block['kind']; fromAt: number; toAt: number; tone: Block['tone'] }[] {
  const { kind, fromAt, toAt, state, nowAt } = stretch;
  if (state === 'done') return [{ kind, fromAt, toAt, tone: 'past' }];
  if (state === 'coming' || nowAt === null) return [{ kind, fromAt, toAt, tone: 'future' }];
  const pieces: { kind: Block['kind']; fromAt: number; toAt: number; tone: Block['tone'] }[] = [];
  if (nowAt > fromAt) pieces.push({ kind, fromAt, toAt: Math.min(nowAt, toAt), tone: 'past' });
  if (nowAt < toAt) pieces.push({ kind, fromAt: Math.max(nowAt, fromAt), toAt, tone: 'now' });
  return pieces;
}

function layWhiskers(input: {
  readonly steps: readonly TimelineStep[];
  readonly yOf: (at: number) => number;
  readonly mostLanes: number;
}): Whisker[] {
  const whiskers: Whisker[] = [];
  const laneEndsPx: number[] = [];
  for (const step of input.steps) {
    if (step.state === 'done') continue;
    const lateAt = Number.isFinite(step.endLateAt) ? step.endLateAt : step.endAt;
    if (lateAt - step.endEarlyAt < LEAST_WHISKER_MIN * MINUTE_MS) continue;
    const topPx = input.yOf(step.endEarlyAt);
    const bottomPx = input.yOf(lateAt);
    const free = laneEndsPx.findIndex((endPx) => endPx + 3 <= topPx);
    const lane = free === -1 ? laneEndsPx.length : free;
    if (lane >= input.mostLanes) continue;
    laneEndsPx[lane] = bottomPx;
    whiskers.push({ stepId: step.id, topPx, bottomPx, middlePx: input.yOf(step.endAt), lane });
  }
  return whiskers;
}

/** What a change has moved by less than a minute stands where it stood. */
const isMoved = (a: number, b: number): boolean => Math.abs(a - b) >= MINUTE_MS;

function ghostOf(input: {
  readonly step: TimelineStep;
  readonly was: TimelineStep | undefined;
  readonly whiskers: readonly Whisker[];
  readonly yOf: (at: number) => number;
}): Ghost[] {
  const { step, was, whiskers, yOf } = input;
  if (was === undefined || step.state === 'done') return [];
  const ends = [[was.startAt, step.startAt], [was.endAt, step.endAt], [was.endEarlyAt, step.endEarlyAt], [was.endLateAt, step.endLateAt]] as const; // prettier-ignore
  if (!ends.some(([before, now]) => isMoved(before, now))) return [];
  const lane = whiskers.find(({ stepId }) => stepId === step.id)?.lane;
  const lateAt = Number.isFinite(was.endLateAt) ? was.endLateAt : was.endAt;
  const span = { stepId: step.id, topPx: yOf(was.endEarlyAt), bottomPx: yOf(lateAt), middlePx: yOf(was.endAt) };
  return [{ stepId: step.id, startPx: yOf(was.startAt), whisker: lane === undefined ? null : { ...span, lane } }];
}

/** Names keep their order and never overlap: each stands at its step's start, or just under the one before. */
function layLabels(input: {
  readonly steps: readonly TimelineStep[];
  readonly was: ReadonlyMap<string, TimelineStep>;
  readonly yOf: (at: number) => number;
  readonly gapOf: (name: string) => number;
}): Label[] {
  let nextFreePx = -Infinity;
  return input.steps.map((step) => {
    const anchorPx = input.yOf(step.startAt);
    const yPx = Math.max(anchorPx, nextFreePx);
    nextFreePx = yPx + input.gapOf(step.name);
    const wasAt = step.state === 'done' ? undefined : input.was.get(step.id)?.startAt;
    return {
      stepId: step.id,
      number: step.number,
      name: step.name,
      state: step.state,
      anchorPx,
      yPx,
      startAt: step.startAt,
      wasStartAt: wasAt !== undefined && isMoved(wasAt, step.startAt) ? wasAt : null,
    };
  });
}
