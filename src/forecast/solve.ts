import { adjustablesOf } from '../make/adjustable.ts';
import { NO_HISTORY, type History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import type { Answers } from '../make/setup.ts';
import { stillOpen } from '../make/under-way.ts';
import { InputError } from '../numbers/validity.ts';
import { designPoints } from '../numbers/quadratic.ts';
import { courseOf } from './course.ts';
import { START, type Answer, type Obstacle, type Question, type Way, type WayKind } from './question.ts';
import { MODEL_VERSION } from './simulate.ts';
import { questionProblems, wantedShare } from './solve-axes.ts';
import type { Case } from './solve-members.ts';
import { cheapest, grid, leastOf, type Box, type Place } from './solve-search.ts';
import type { Standing } from './solve-surface.ts';
import { Trials, type Look } from './solve-trials.ts';
import { Verifier, VERIFYING } from './solve-verify.ts';
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
const MARGIN = 0.02; // looked for above what is wanted, because what was searched for always looks a little better than it is
const TOLD_APART = 0.01; // a share this little below the wanted one is the wanted one
const TRIES = 3;
const WORTH_MIN = 10; // an earlier end worth telling
const WORTH_SHARE = 0.04; // a surer way worth telling
const SURE = 0.97; // our own choice

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

type Verify = (at: readonly number[], seed: number) => Way;

interface Wide extends Look {
  readonly places: readonly Place[];
}

/** The whole box: looked at, fitted, and judged on a coarse grid and along every axis from the make as it stands. */
function lookWide(trials: Trials): Wide {
  const dimensions = trials.axes.length;
  const box: Box = { low: new Array<number>(dimensions).fill(-1), high: new Array<number>(dimensions).fill(1) };
  const inside = trials.home.map((x) => Math.min(Math.max(x, -1), 1));
  const look = trials.lookInto(box, [...designPoints(dimensions), trials.home]);
  return { ...look, places: [...grid(look), ...lines(inside, look), ...trials.seen(look)] };
}

const LINE = 41;

/** Changes of one thing only: a maker would rather move one than three. */
function lines(home: readonly number[], { box, stands }: Look): Place[] {
  return home.flatMap((_, axis) =>
    Array.from({ length: LINE }, (_each, i) => {
      const share = i / (LINE - 1);
      const at = home.map((x, other) => (other === axis ? (box.low[axis] ?? -1) * (1 - share) + (box.high[axis] ?? 1) * share : x)); // prettier-ignore
      return { at, standing: stands(at) };
    }),
  );
}

/** Ranges left of the way: summed over the inputs, so that one changed thing is preferred to several. */
const changeTo = (trials: Trials, at: readonly number[]): number =>
  at.reduce((sum, x, axis) => sum + Math.abs(x - (trials.home[axis] ?? 0)) / 2, 0);

const ASIDE = 1000;
/** Falls with the share; where hardly any member meets all aims, what comes nearest decides. */
const missing = (share: number): number => -Math.log(share + HARDLY_ANY);
const HARDLY_ANY = 0.05; // of the members: our own choice

/** Least change where the goal is reached; before that, whatever comes nearer to it. */
const changeFor =
  (trials: Trials, goal: number) =>
  ({ at, standing }: Place): number =>
    standing.share >= goal
      ? changeTo(trials, at)
      : ASIDE + missing(standing.share) + 0.5 * standing.miss + 0.02 * changeTo(trials, at);

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
    here = { ...look, places: [...grid(look), ...trials.seen(look)] };
  }
  return here;
}

/** A smaller box about a place, moved inward where it would cross a bound. */
function around(at: readonly number[], half: number): Box {
  const middle = at.map((x) => Math.min(Math.max(x, -1 + half), 1 - half));
  return { low: middle.map((x) => x - half), high: middle.map((x) => x + half) };
}

interface Finding {
  readonly trials: Trials;
  readonly wide: Wide;
  readonly wanted: number;
  readonly verify: Verify;
  readonly seed: number;
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

/** Takes back every change that brings nothing. */
function sparing(trials: Trials, { stands }: Look, place: Place, goal: number): readonly number[] {
  const cost = changeFor(trials, goal);
  const most = cost(place) + 1e-3;
  return trials.home.reduce<readonly number[]>((at, home, axis) => {
    const without = at.map((x, other) => (other === axis ? home : x));
    return Math.abs(home) <= 1 && cost({ at: without, standing: stands(without) }) <= most ? without : at;
  }, place.at);
}

/** Sooner done, or surer, where either is worth telling. */
function otherWays(input: Finding & { readonly found: Way }): Answer['others'] {
  const { trials, wide, wanted, found, verify, seed } = input;
  const goal = wanted + MARGIN;
  const at = (cost: (place: Place) => number): Way => verify(cheapest({ ...wide, starts: wide.places, cost }).at, seed + 1); // prettier-ignore
  const soonest = at(({ at: place, standing }) => (standing.share >= goal ? standing.endMin + changeTo(trials, place) : ASIDE * (1 + missing(standing.share)))); // prettier-ignore
  // As sure as it gets, or nearly certain: nobody starts in the night for the last makes in a hundred.
  const most = Math.min(SURE, wide.places.reduce((top, { standing }) => Math.max(top, standing.share), 0) - MARGIN / 2);
  const surest = at(changeFor(trials, most));
  // A start moved to the night before is no make that is done sooner.
  const movesStart = trials.axes.some((axis) => axis.id === START);
  const isSooner =
    !movesStart && soonest.endMin.p50 <= found.endMin.p50 - WORTH_MIN && soonest.probability >= wanted - TOLD_APART;
  const isSurer = surest.probability >= found.probability + WORTH_SHARE;
  return [
    ...(isSooner ? [{ kind: 'soonest' as WayKind, way: soonest }] : []),
    ...(isSurer ? [{ kind: 'surest' as WayKind, way: surest }] : []),
  ];
}

/** Where two aims fight: the settings that serve the one in the way, and those that serve the rest. */
function sides(input: Finding & { readonly obstacle: Obstacle | null; readonly found: Way }): Answer['others'] {
  const { trials, wide, obstacle, found, verify, seed } = input;
  if (obstacle === null || trials.aims.length < 2) return [];
  const { aim } = obstacle;
  const at = (cost: (one: Standing) => number): Way => verify(cheapest({ ...wide, starts: wide.places, cost: (place) => cost(place.standing) + 0.02 * changeTo(trials, place.at) }).at, seed + 1); // prettier-ignore
  const own = ({ alone }: Standing): number => missing(alone[aim] ?? 0);
  const rest = ({ without }: Standing): number => missing(without[aim] ?? 0);
  const forThis = at((one) => own(one) + 0.3 * rest(one));
  const forOthers = at((one) => 0.3 * own(one) + rest(one));
  const gains = (way: Way, of: 'probability' | 'others'): boolean => (way.aims[aim]?.[of] ?? 0) >= (found.aims[aim]?.[of] ?? 0) + WORTH_SHARE; // prettier-ignore
  return [
    ...(gains(forThis, 'probability') ? [{ kind: 'for-this-aim' as WayKind, way: forThis }] : []),
    ...(gains(forOthers, 'others') ? [{ kind: 'for-the-others' as WayKind, way: forOthers }] : []),
  ];
}

/** More members inside, or, where hardly any are, the middle of the aims nearer to their ranges. */
function comesNearer(trials: Trials, from: Way, to: Way): boolean {
  if (Math.max(from.probability, to.probability) > HARDLY_ANY) return to.probability > from.probability + TOLD_APART;
  const off = (way: Way): number =>
    trials.aims.reduce((sum, { low, high }, index) => {
      const spread = way.aims[index]?.spread;
      return spread === undefined ? sum : sum + Math.max(low - spread.p50, spread.p50 - high, 0) / Math.max(spread.p95 - spread.p5, 1e-9); // prettier-ignore
    }, 0);
  return off(to) < off(from) - TOLD_APART;
}

/** Which aim stands in the way: one that not even alone comes far enough, else the one that the others gain most without. */
function obstacleOf({ trials, wide, wanted, verify, seed }: Finding): Obstacle | null {
  const most = (of: (place: Place) => number): Place => cheapest({ ...wide, starts: wide.places, cost: (place) => missing(of(place)) }); // prettier-ignore
  const alone = trials.aims.map((_, aim) => most(({ standing }) => standing.alone[aim] ?? 0));
  const shares = alone.map((place, aim) => place.standing.alone[aim] ?? 0);
  const least = shares.indexOf(Math.min(...shares));
  const place = alone[least];
  if (place === undefined) return null;
  if (trials.aims.length === 1 || (shares[least] ?? 0) < wanted) {
    const way = verify(place.at, seed + 1);
    return { aim: least, kind: 'out-of-reach', way, probability: way.aims[least]?.probability ?? 0 };
  }
  const without = trials.aims.map((_, aim) => most(({ standing }) => standing.without[aim] ?? 0));
  const gains = without.map((one, aim) => one.standing.without[aim] ?? 0);
  const aim = gains.indexOf(Math.max(...gains));
  const freed = without[aim];
  if (freed === undefined) return null;
  const way = verify(freed.at, seed + 1);
  return { aim, kind: 'against-the-others', way, probability: way.aims[aim]?.others ?? 0 };
}
