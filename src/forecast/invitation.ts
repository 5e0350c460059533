import { normalQuantile } from '../numbers/normal.ts';
import { gradeProbabilities } from '../science/judgements.ts';
import { leastHalfWidthMin } from './bands.ts';
import type { Course, CourseStep } from './course.ts';
import type { Invitation, StepForecast } from './forecast.ts';
import { readingErrorSd } from './reading-error.ts';
import { TRACE_EVERY_MIN, TRACE_POINTS, TRACED, type MemberRun, type Traced } from './run.ts';

/**
 * Whether a reading now would change when this step is ended, and which one would most. Each member in turn is taken for the
 * truth: what it would read, with the instrument's error, weighs all the others; the span of the step's end that is left is
 * averaged over them (expected value of sample information, Raiffa and Schlaifer 1961, here in minutes of span).
 */

/** A reading is worth asking for when it takes at least so many minutes, and this share, off the span. Our own choice. */
const WORTH_MIN = 12;
const WORTH_SHARE = 0.2;
/** What a reading costs in minutes of attention: between two that narrow alike the cheaper is asked for. Our own choice. */
const COST_MIN = { pH: 2, temperatureC: 1, stretch: 5, wheyTaste: 1 } as const;
/** Not again so soon after the same was read or judged. Our own choice. */
const NOT_AGAIN_MIN = 20;
/** A test piece is wasted where the curd is hardly ready so soon. Our own choice. */
const TEST_PIECE_AHEAD_MIN = 15;
/** Truths tried: enough for the mean of a span to a few minutes. Our own choice. */
const TRUTHS = 16;
/** Grades hardly ever given are left out of the mean. Our own choice. */
const LEAST_CHANCE = 0.02;
const LEAST_MEMBERS = 30;
/** Hands that a step keeps for so much of its length have no free one for a probe. Our own choice. */
const BUSY_SHARE = 0.4;

interface Candidate {
  readonly invites: Pick<Invitation, 'quantity' | 'sample' | 'judgement'>;
  readonly costMin: number;
  /** What each member would read, and how likely each member makes what another one read. */
  readonly state: Float64Array;
  readonly likelihoods: (truth: number, error: number) => readonly { chance: number; of: (state: number) => number }[];
}

/** At most one reading worth taking now, or none. Cheap: no member is run again. */
export function invitationOf(input: {
  course: Course;
  runs: readonly MemberRun[];
  steps: readonly StepForecast[];
}): Invitation | null {
  const { course, runs, steps } = input;
  const step = course.steps.filter((one) => one.startedMin !== null && one.endedMin === null).at(-1);
  if (step === undefined || course.mayEndFromMin < course.nowMin || runs.length < LEAST_MEMBERS) return null;
  const foreseen = steps[step.index];
  if (foreseen === undefined || !isJudged(step) || handsBusy({ step, foreseen, nowMin: course.nowMin })) return null;
  const ends = inOrder(Float64Array.from(runs, (run) => run.endMin[step.index] ?? Number.NaN));
  const floorMin = 2 * leastHalfWidthMin({ remainingMin: foreseen.endMin.p50 - course.nowMin, phase: foreseen.phase });
  const even = new Float64Array(runs.length).fill(1);
  const spanMin = Math.max(spanOf(ends, even), floorMin);
  let best: Invitation | null = null;
  let gained = 0;
  for (const candidate of candidatesOf({ course, step, foreseen, runs })) {
    const thenMin = Math.max(spanAfter(candidate, ends), floorMin);
    const narrower = spanMin - thenMin;
    if (narrower < WORTH_MIN || narrower < WORTH_SHARE * spanMin || narrower - candidate.costMin <= gained) continue;
    gained = narrower - candidate.costMin;
    best = { stepId: step.id, ...candidate.invites, spanMin, thenMin };
  }
  return best;
}

const isJudged = (step: CourseStep): boolean =>
  step.watches.some((watch) => watch.kind === 'judgement' || watch.kind === 'pH');

/** True while the step's own work takes the hands: as it begins, as it is about to end, or all along. */
function handsBusy(at: { step: CourseStep; foreseen: StepForecast; nowMin: number }): boolean {
  const { step, foreseen, nowMin } = at;
  const { start, during, end } = step.plan.handsMin;
  const startedMin = step.startedMin ?? nowMin;
  // By the late quarter: where half of all makes would be over by now and this one is not, its hands wait.
  const lengthMin = Math.max(foreseen.endMin.p75 - startedMin, 1);
  return nowMin - startedMin < start || foreseen.endMin.p75 - nowMin < end || during > BUSY_SHARE * lengthMin;
}

function candidatesOf(input: {
  course: Course;
  step: CourseStep;
  foreseen: StepForecast;
  runs: readonly MemberRun[];
}): Candidate[] {
  const { course, step, foreseen, runs } = input;
  const { setup } = course.plan;
  const found: Candidate[] = [];
  const sample = foreseen.phase === 'drained' ? 'curd' : foreseen.phase === 'curd-in-whey' ? 'whey' : 'milk';
  const wasRead = (is: (quantity: string) => boolean): boolean =>
    [
      ...course.history.readings.map(({ quantity, elapsedMin }) => ({ what: quantity, elapsedMin })),
      ...course.history.judgements.map(({ judgement, elapsedMin }) => ({ what: judgement, elapsedMin })),
    ].some(({ what, elapsedMin }) => is(what) && elapsedMin > course.nowMin - NOT_AGAIN_MIN);
  const reads = (quantity: 'pH' | 'temperatureC', traced: Traced): void => {
    const state = nowIn(runs, traced, course.nowMin);
    if (state === null || wasRead((what) => what === quantity)) return;
    const sd = readingErrorSd({ quantity, sample, setup });
    found.push({
      invites: { quantity, sample },
      costMin: COST_MIN[quantity],
      state,
      likelihoods: (truth, error) => [
        { chance: 1, of: (here) => Math.exp(-0.5 * ((truth + sd * error - here) / sd) ** 2) },
      ],
    });
  };
  const judges = (judgement: 'stretch' | 'wheyTaste', traced: Traced): void => {
    const state = nowIn(runs, traced, course.nowMin);
    if (state === null || wasRead((what) => what === judgement)) return;
    found.push({
      invites: { judgement },
      costMin: COST_MIN[judgement],
      state,
      likelihoods: (truth) =>
        gradeProbabilities({ judgement, state: truth }).map((chance, grade) => ({
          chance,
          of: (here) => gradeProbabilities({ judgement, state: here })[grade] ?? 0,
        })),
    });
  };
  if (setup.pHMeter) reads('pH', sample === 'whey' ? 'wheyPH' : 'pH');
  reads('temperatureC', 'temperatureC');
  const isStretched = step.watches.some((watch) => watch.kind === 'judgement' && watch.judgement === 'stretch');
  if (isStretched && foreseen.endMin.p5 - course.nowMin < TEST_PIECE_AHEAD_MIN) judges('stretch', 'pH');
  if (sample === 'whey' && setup.milk.treatment !== 'raw') judges('wheyTaste', 'wheyPH');
  return found;
}

/** What every member has now; null where not all have it. */
function nowIn(runs: readonly MemberRun[], traced: Traced, nowMin: number): Float64Array | null {
  const position = Math.min(nowMin / TRACE_EVERY_MIN, TRACE_POINTS - 1);
  const before = Math.floor(position);
  const at = TRACED.indexOf(traced) * TRACE_POINTS;
  const state = Float64Array.from(runs, ({ trace }) => {
    const low = trace[at + before] ?? Number.NaN;
    const high = trace[at + Math.min(before + 1, TRACE_POINTS - 1)] ?? Number.NaN;
    return Number.isNaN(high) ? low : low + (position - before) * (high - low);
  });
  return state.some(Number.isNaN) ? null : state;
}

/** Members in the order of their ends, and those ends; one beyond the horizon counts as the latest there is. */
interface Ends {
  readonly order: Int32Array;
  readonly sortedMin: Float64Array;
}

function inOrder(endMin: Float64Array): Ends {
  const latest = endMin.reduce((last, end) => (Number.isFinite(end) ? Math.max(last, end) : last), 0);
  const there = endMin.map((end) => (Number.isFinite(end) ? end : latest));
  const order = Int32Array.from(there.keys()).sort((a, b) => (there[a] ?? 0) - (there[b] ?? 0));
  return { order, sortedMin: Float64Array.from(order, (i) => there[i] ?? 0) };
}

/** Span of the end that is left on average after the reading. */
function spanAfter(candidate: Candidate, ends: Ends): number {
  const { likelihoods } = candidate;
  const { order } = ends;
  const state = Float64Array.from(order, (i) => candidate.state[i] ?? Number.NaN);
  const weights = new Float64Array(state.length);
  let sum = 0;
  for (let k = 0; k < TRUTHS; k++) {
    const truth = state[Math.floor(((k + 0.5) / TRUTHS) * state.length)] ?? Number.NaN;
    // Errors in another order than the truths, so that the two do not go together.
    const error = normalQuantile((((5 * k + 3) % TRUTHS) + 0.5) / TRUTHS);
    for (const { chance, of } of likelihoods(truth, error)) {
      if (chance < LEAST_CHANCE) continue;
      for (let i = 0; i < state.length; i++) weights[i] = of(state[i] ?? Number.NaN);
      sum += (chance * spanOf(ends, weights)) / TRUTHS;
    }
  }
  return sum;
}

/** Minutes between the early and the late twentieth of weighed members, `weights` in the order of their ends. */
function spanOf({ sortedMin }: Ends, weights: Float64Array): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  let earlyMin = Number.NaN;
  let before = 0;
  for (let i = 0; i < weights.length; i++) {
    before += weights[i] ?? 0;
    if (Number.isNaN(earlyMin) && before >= 0.05 * total) earlyMin = sortedMin[i] ?? Number.NaN;
    if (before >= 0.95 * total) return (sortedMin[i] ?? Number.NaN) - earlyMin;
  }
  return 0;
}
