/** How much notes narrow a whole make: flocculation the cutting, three stretch tests and pH the readiness. */
import { leastHalfWidthMin } from '../../src/forecast/bands.ts';
import { courseOf, type Course } from '../../src/forecast/course.ts';
import type { Forecast } from '../../src/forecast/forecast.ts';
import { groundOf } from '../../src/forecast/inputs.ts';
import type { MemberRun } from '../../src/forecast/run.ts';
import { benchOf, membersOf, simulate } from '../../src/forecast/simulate.ts';
import { DIMENSIONS } from '../../src/forecast/uncertain.ts';
import { NO_HISTORY, type History } from '../../src/make/history.ts';
import type { Plan } from '../../src/make/plan.ts';
import { seededRandom, type Random } from '../../src/numbers/random.ts';
import { weightedQuantiles } from '../../src/numbers/stats.ts';
import { planFor } from '../../tests/makes.ts';
import { anyRow } from './kitchen.ts';
import { answerOf, judgedAt, noted, readAsForecast, type Ask, type Judged, type Reading } from './notes.ts';
import { stepsUntil } from './synthetic.ts';

/** What notes did to a band of times. */
export interface Narrowed {
  /** Width of the band after over its width before. */
  readonly share: number;
  /** Share of curds that do not come to it in time, before the notes and after. */
  readonly never?: { readonly before: number; readonly after: number };
}

/** One make whose steps went as the truth goes, and what is known of it at a moment. */
interface Going {
  readonly plan: Plan;
  readonly course: Course;
  readonly own: MemberRun;
  readonly random: Random;
  readonly members: number;
  readonly truth: (history: History) => MemberRun;
}

function going(input: { seed: number; members: number; pHMeter: boolean }): Going {
  const random = seededRandom(input.seed);
  const plan = planFor({ answers: { instruments: { pHMeter: input.pHMeter } } });
  const ground = groundOf(plan);
  const row = anyRow(random);
  const truth = (history: History): MemberRun => benchOf(courseOf({ plan, history }), ground).run(row);
  const course = courseOf({ plan, history: NO_HISTORY });
  return { plan, course, own: truth(NO_HISTORY), random, members: input.members, truth };
}

const at = ({ course, own }: Going, nowMin: number): History => ({ ...NO_HISTORY, nowMin, steps: stepsUntil(course, own, nowMin) }); // prettier-ignore

function withReading(make: Going, history: History, of: Pick<Reading, 'quantity' | 'sample' | 'elapsedMin'>): History {
  const reading: Reading = { ...of, value: of.quantity === 'pH' ? 6 : 12 };
  const ask: Ask = (note) => answerOf(make.truth(noted(history, note)), noted(history, note), note);
  const { expected, sd } = ask(reading);
  return noted(history, { ...reading, value: readAsForecast({ reading, expected, sd, random: make.random }) });
}

function withJudgement(make: Going, history: History, of: Pick<Judged, 'judgement' | 'elapsedMin'>): History {
  const ask: Ask = (note) => answerOf(make.truth(noted(history, note)), noted(history, note), note);
  const judged = judgedAt({ ...of, random: make.random, ask });
  return judged === null ? history : noted(history, judged);
}

const LONGEST_MIN = 360; // as `course.ts` waits for a rest

function widthOf(make: Going, history: History, verb: 'set' | 'restToAcid'): number {
  const index = make.course.steps.findLastIndex((step) => step.verb === verb);
  const forecast: Forecast = simulate({ plan: make.plan, history, members: make.members });
  const end = forecast.steps[index]?.endMin;
  // Never reached is as late as a rest is waited for.
  const latest = history.nowMin + LONGEST_MIN;
  return end === undefined ? NaN : Math.min(end.p95, latest) - Math.min(end.p5, latest);
}

/** Width of the band of the cutting time with the flecks noted, over its width at the same moment without. */
export function narrowedByFlocculation(input: { seed: number; members: number }): number {
  const make = going({ ...input, pHMeter: false });
  const add = make.course.steps.findIndex((step) => step.plan.set.ingredient === 'rennet');
  const rennetMin = make.own.endMin[add] ?? NaN;
  const asked: Reading = { quantity: 'flocculationMin', sample: 'milk', elapsedMin: rennetMin + 1, value: 12 };
  const early = noted(at(make, rennetMin + 1), asked);
  const nowMin = Math.ceil(rennetMin + answerOf(make.truth(early), early, asked).expected);
  const before = at(make, nowMin);
  const after = withReading(make, before, { quantity: 'flocculationMin', sample: 'milk', elapsedMin: nowMin });
  return widthOf(make, after, 'set') / widthOf(make, before, 'set');
}

const restIndex = (make: Going): number => make.course.steps.findLastIndex((step) => step.verb === 'restToAcid');

/** Minutes at shares of the last rest, or null where it never came to its end. */
function inLastRest(make: Going, shares: readonly number[]): number[] | null {
  const index = restIndex(make);
  const start = make.own.startMin[index] ?? NaN;
  const end = make.own.endMin[index] ?? NaN;
  return Number.isFinite(end) && end - start > 20 ? shares.map((share) => Math.round(start + share * (end - start))) : null; // prettier-ignore
}

/**
 * Three stretch tests in the drained rest, no meter: the band of readiness among the curds that come to it, over the same before
 * any test; and the share that does not come to it within six hours, before and after.
 *
 * What was graded is evidence about the curd, whatever the clock says: so both bands count from the beginning of the rest, and
 * neither is cut off at the last test.
 */
export function narrowedByStretching(input: { seed: number; members: number }): Narrowed | null {
  const make = going({ ...input, pHMeter: false });
  const minutes = inLastRest(make, [0.25, 0.5, 0.75]);
  if (minutes === null) return null;
  const index = restIndex(make);
  const begun = at(make, make.own.startMin[index] ?? 0);
  const bare = at(make, minutes.at(-1) ?? 0);
  const tested = minutes.reduce((history, elapsedMin) => withJudgement(make, history, { judgement: 'stretch', elapsedMin }), bare); // prettier-ignore
  const before = readiness(make, { known: begun, from: begun });
  const after = readiness(make, { known: tested, from: begun });
  return { share: after.widthMin / before.widthMin, never: { before: before.never, after: after.never } };
}

/** When the curds that explain what is known become ready, walked from an earlier moment. */
function readiness(make: Going, at: { known: History; from: History }): { widthMin: number; never: number } {
  const { plan, members } = make;
  const { rows, weights } = membersOf({ plan, history: at.known, members }).ensemble;
  const bench = benchOf(courseOf({ plan, history: at.from }), groundOf(plan));
  const ends = Array.from(weights, (weight, i) => {
    const run = bench.run(rows.subarray(i * DIMENSIONS, (i + 1) * DIMENSIONS));
    return { weight, endMin: run.endMin[restIndex(make)] ?? NaN };
  });
  const there = ends.filter(({ endMin }) => Number.isFinite(endMin));
  const sum = (of: typeof ends): number => of.reduce((total, { weight }) => total + weight, 0);
  const [p5 = NaN, p50 = NaN, p95 = NaN] = weightedQuantiles(
    there.map(({ endMin }) => endMin),
    there.map(({ weight }) => weight),
    [0.05, 0.5, 0.95],
  );
  const floorMin = leastHalfWidthMin({ remainingMin: p50 - at.known.nowMin, phase: 'drained' });
  return { widthMin: Math.max(p95 - p5, 2 * floorMin), never: 1 - sum(there) / sum(ends) };
}

/** Width of readiness with whey read twice before draining, and with the drained curd read once, over its width without. */
export function narrowedAcrossDraining(input: {
  seed: number;
  members: number;
}): { whey: Narrowed; curd: Narrowed } | null {
  const make = going({ ...input, pHMeter: true });
  const drain = make.course.steps.findIndex((step) => step.verb === 'drain');
  const drainMin = make.own.startMin[drain] ?? NaN;
  const cut = make.course.steps.findIndex((step) => step.verb === 'cut');
  const cutMin = make.own.endMin[cut] ?? NaN;
  const minutes = inLastRest(make, [0.4]);
  const curdMin = minutes?.[0];
  if (curdMin === undefined) return null;
  const early = [0.4, 0.95].map((share) => Math.round(cutMin + share * (drainMin - cutMin)));
  const wheyRead = (history: History): History =>
    early.reduce((so, elapsedMin) => withReading(make, so, { quantity: 'pH', sample: 'whey', elapsedMin }), history);
  const beforeDraining = at(make, drainMin);
  const drained = at(make, curdMin);
  const narrowed = (before: History, after: History): Narrowed => ({
    share: widthOf(make, after, 'restToAcid') / widthOf(make, before, 'restToAcid'),
  });
  return {
    whey: narrowed(beforeDraining, wheyRead(beforeDraining)),
    curd: narrowed(drained, withReading(make, drained, { quantity: 'pH', sample: 'curd', elapsedMin: curdMin })),
  };
}
