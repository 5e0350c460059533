import { adjustablesOf } from '../make/adjustable.ts';
import { NO_HISTORY, type History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import type { Answers } from '../make/setup.ts';
import { stillOpen } from '../make/under-way.ts';
import { InputError } from '../numbers/validity.ts';
import { designPoints } from '../numbers/quadratic.ts';
import { courseOf } from './course.ts';
import type { Answer, Question, Way } from './question.ts';
import { MODEL_VERSION } from './simulate.ts';
import { questionProblems, wantedShare } from './solve-axes.ts';
import type { Case } from './solve-members.ts';
import { cheapest, grid, leastOf, mix, type Box, type Place } from './solve-search.ts';
import { Trials, type Look } from './solve-trials.ts';
import { Verifier, VERIFYING } from './solve-verify.ts';
import { changeFor, comesNearer, MARGIN, obstacleOf, otherWays, sides, TOLD_APART, type Finding, type Verify, type Wide } from './solve-ways.ts'; // prettier-ignore
import type { Beliefs } from './uncertain.ts';

export interface SolveInput {
  /** From `planMake`. */
  readonly plan: Plan;
  /** The answers that the plan was made from. */
  readonly answers: Answers;
  readonly question: Question;
  readonly history?: History;
  readonly beliefs?: Beliefs;
  /** Any integer; 1 where left out. The same seed gives the same answer. */
  readonly seed?: number;
}

const SEARCHING = 100; // members that look for settings: our own choice, for an answer within a second
const ROUNDS = 3; // closer looks at most
const CLOSER = 0.35; // each round's box, of the one before
const AGREES = 0.04; // shares by the surface and by the members themselves: what a hundred members tell apart
const MISS_AGREES = 0.15; // and how far outside they lie, in standard deviations; our own choice
const TRIES = 3;

/**
 * Settings that reach the aims with the wanted probability, at the least change from the plan as it stands; or what comes
 * nearest, and which aim stands in the way.
 *
 * The same hundred members are run at a few settings (`numbers/quadratic.ts`); between them every member follows its own
 * quadratic, so that any setting can be judged at once, and the best is run again until surface and members agree. Every
 * probability told is counted among 500 other members that had no part in the search.
 *
 * @param input.question one to four aims, one to five free inputs of `adjustablesOf(plan)` or `start`
 * @returns the verdict, the make as it stands, the best settings, other ways worth telling; reproducible from the seed
 * Uncertainty: `plusMinus` of each way, about 0.04 at a probability of 0.8.
 * @throws InputError naming everything that is wrong with the question
 */
export function solve(input: SolveInput): Answer {
  const { plan, answers, question, history = NO_HISTORY, beliefs = {}, seed = 1 } = input;
  const all = adjustablesOf(plan);
  const adjustables = stillOpen({ plan, adjustables: all, history });
  const decided = new Set(all.filter((one) => !adjustables.some(({ id }) => id === one.id)).map(({ id }) => id));
  const course = courseOf({ plan, history });
  const problems = questionProblems({ question, course, adjustables, decided });
  if (problems.length > 0) throw new InputError(problems);

  const on: Case = { plan, answers, history, beliefs, adjustables };
  const trials = new Trials({ on, question, members: SEARCHING, seed });
  const verifier = new Verifier({ on, trials });
  const verify: Verify = (at, by) => verifier.way(at, by);
  const wanted = wantedShare(question);
  const asItStands = verify(trials.home, seed + 1);
  const wide = lookWide(trials);
  const near = closeIn({ trials, wide, goal: wanted + MARGIN });
  const change = asItStands.probability >= wanted - TOLD_APART ? asItStands : leastChange({ trials, near, wide, wanted, verify, seed }); // prettier-ignore
  // A change that brings nothing that 500 members could tell apart is no advice.
  const isIdle = change.probability < wanted - TOLD_APART && !comesNearer(trials, asItStands, change);
  const found = isIdle ? asItStands : change;
  const isReached = found.probability >= wanted - TOLD_APART;
  const obstacle = isReached ? null : obstacleOf({ trials, wide, wanted, verify, seed });
  return {
    verdict: !isReached ? 'not-reached' : found === asItStands ? 'as-it-stands' : 'reached',
    wanted,
    asItStands,
    best: found,
    others: isReached ? otherWays({ trials, wide, wanted, found, verify, seed }) : sides({ trials, wide, wanted, obstacle, found, verify, seed }), // prettier-ignore
    obstacle,
    unmoved: trials.unmoved(),
    findings: verifier.newFindings({ from: asItStands, to: found }),
    seed,
    modelVersion: MODEL_VERSION,
    members: VERIFYING,
    runs: trials.runs + verifier.runs,
  };
}

/** The whole box: looked at, fitted, and judged on a coarse grid and along every axis from the make as it stands. */
function lookWide(trials: Trials): Wide {
  const dimensions = trials.axes.length;
  const box: Box = { low: trials.axes.map(() => -1), high: trials.axes.map(() => 1) };
  const inside = inBox(trials.home, box);
  const look = trials.lookInto(box, [...designPoints(dimensions), trials.home]);
  return { ...look, places: [...grid(look), ...fewChanges(inside, look), ...trials.seen(look)] };
}

const LINE = 41;
const PLANE = 13;

/** Changes of one thing only, and of two: a maker would rather move one than three. */
function fewChanges(home: readonly number[], { box, stands }: Look): Place[] {
  const axes = home.map((_, axis) => axis);
  const along = (axis: number, count: number): number[] =>
    Array.from({ length: count }, (_, i) => mix(box.low[axis] ?? -1, box.high[axis] ?? 1, i / (count - 1)));
  const moved = (...to: readonly (readonly [axis: number, x: number])[]): number[] =>
    home.map((x, axis) => to.find(([which]) => which === axis)?.[1] ?? x);
  const lines = axes.flatMap((i) => along(i, LINE).map((x) => moved([i, x])));
  const pairs = axes.length < 3 ? [] : axes.flatMap((i) => axes.slice(i + 1).map((j) => [i, j] as const));
  const planes = pairs.flatMap(([i, j]) => along(i, PLANE).flatMap((x) => along(j, PLANE).map((y) => moved([i, x], [j, y])))); // prettier-ignore
  return [...lines, ...planes].map((at) => ({ at, standing: stands(at) }));
}

/** Looks closer, round by round, until the members themselves come to what their surface says. */
function closeIn(input: { readonly trials: Trials; readonly wide: Wide; readonly goal: number }): Wide {
  const { trials, goal } = input;
  let here = input.wide;
  for (let round = 1; round <= ROUNDS; round++) {
    const place = cheapest({ ...here, starts: here.places, cost: changeFor(trials, goal) });
    const real = trials.look(place.at);
    const [said, came] = [here.stands(real.at), here.seen(real)];
    if (Math.abs(said.share - came.share) <= AGREES && Math.abs(said.miss - came.miss) <= MISS_AGREES) return here;
    // Nearer to the best that was really seen: a surface that is wrong in a corner must not keep the search there.
    const box = around(leastOf(trials.seen(here), changeFor(trials, goal)).at, CLOSER ** round);
    const middle = (axis: number): number => ((box.low[axis] ?? 0) + (box.high[axis] ?? 0)) / 2;
    const spread = designPoints(trials.axes.length).map((point) => point.map((x, axis) => middle(axis) + x * ((box.high[axis] ?? 0) - middle(axis)))); // prettier-ignore
    const look = trials.lookInto(box, spread);
    here = { ...look, places: [...grid(look), ...fewChanges(inBox(trials.home, box), look), ...trials.seen(look)] };
  }
  return here;
}

const inBox = (at: readonly number[], { low, high }: Box): number[] => at.map((x, axis) => Math.min(Math.max(x, low[axis] ?? -1), high[axis] ?? 1)); // prettier-ignore

/** A smaller box about a place, moved inward where it would cross a bound. */
function around(at: readonly number[], half: number): Box {
  const middle = at.map((x) => Math.min(Math.max(x, -1 + half), 1 - half));
  return { low: middle.map((x) => x - half), high: middle.map((x) => x + half) };
}

/** The least change that keeps what it promises among fresh members; a little more is looked for where it fell short. */
function leastChange(input: Finding & { readonly near: Wide }): Way {
  const { trials, near, wanted, verify, seed } = input;
  let goal = wanted + MARGIN;
  let best: Way | null = null;
  for (let tries = 0; tries < TRIES; tries++) {
    const place = cheapest({ ...near, starts: near.places, cost: changeFor(trials, goal) });
    const way = verify(sparing(trials, near, place, goal), seed + 1 + tries);
    if (best === null || way.probability > best.probability) best = way;
    if (way.probability >= wanted - TOLD_APART || place.standing.share < goal) return best;
    goal += wanted - way.probability + MARGIN / 2;
  }
  return best ?? verify(trials.home, seed + 1);
}

/** Takes back every change that brings nothing, asking the members themselves. */
function sparing(trials: Trials, { seen }: Look, place: Place, goal: number): readonly number[] {
  const cost = changeFor(trials, goal);
  const really = (at: readonly number[]): number => cost({ at, standing: seen(trials.look(at)) });
  let most = Math.max(cost(place), really(place.at));
  return trials.home.reduce<readonly number[]>((at, home, axis) => {
    if (Math.abs(home) > 1 || Math.abs((at[axis] ?? home) - home) < 1e-6) return at;
    const without = at.map((x, other) => (other === axis ? home : x));
    const here = really(without);
    if (here > most) return at;
    most = here;
    return without;
  }, place.at);
}
