import type { DayFinding, DayInput, DayPlan, DayPot } from './day.ts';
import { boundOf } from './bound.ts';
import { jobsOf, type Job, type PotJobs } from './jobs.ts';
import { layOut } from './laying-out.ts';
import { missingKit } from './missing-kit.ts';
import { heatedPreparations, placedPots, wantsOf } from './placed.ts';
import { isBetter, placeNear, placePots, type Placed, type PlacingInput } from './placing.ts';
import { scarceOf } from './profile.ts';
import { GRID_MIN, RESOURCES, type Resource } from './rules.ts';
import { boundByShares, improve } from './solver.ts';
import { withUnits } from './units.ts';
import { waysOut } from './ways.ts';

/**
 * A day of one or more makes: when each begins, on which burner, and when everything beside it is made ready, so that nobody
 * has to be in two places at once and no burner is wanted twice.
 *
 * Steps stand at their likeliest times; kit is kept from when one make in five comes early until four in five are through;
 * the day is over when nine in ten are. A first plan comes from placing the pots one after the other in every order; an integer
 * program then looks for a better one or shows that there is none, and a bound says how far from the best the plan can be.
 * @param input pots with their forecasts, the kit there is, the hours; see `day.ts`
 * @returns the plan of every pot that can be planned, and what stands in the way of the rest, with ways out that were tried
 */
export function planDay(input: DayInput): DayPlan {
  const plan = plannedDay(input);
  return { ...plan, ways: waysOut({ day: input, plan, replan: firstDay }) };
}

/** The day without the solver and without ways out: quick enough to try a change on. */
export function firstDay(input: DayInput): DayPlan {
  return plannedDay(input, true);
}

function plannedDay(input: DayInput, isQuick = false): DayPlan {
  const { findings, possible } = sorted(input);
  const { jobs, pots } = jobsOf({ pots: possible, kit: input.kit });
  const isBack = isPlannedBack(input);
  const nowMin = input.hours.nowMin ?? Number.NEGATIVE_INFINITY;
  const forwards = { jobs, pots, scarce: scarceOf({ kit: input.kit, jobs }), fromMin: input.hours.fromMin ?? Math.max(input.kit.more?.fromMin ?? nowMin, nowMin, EARLIEST_MIN), nowMin, orders: isQuick ? FEW_ORDERS : MANY_ORDERS, heldBack: isQuick ? 1 : HELD_BACK }; // prettier-ignore
  // Back from its end the day is planned on a clock of its own, then moved.
  const placing: PlacingInput = isBack ? { ...forwards, fromMin: 0, nowMin: Number.NEGATIVE_INFINITY } : forwards;
  const found = solved({ placing, isQuick });
  if (found === null) return emptyDay(input, findings);
  const shiftMin = isBack ? shiftBack(input, found.placed.endMin) : 0;
  const firstMin =
    Math.min(...pots.map(({ chain }) => found.placed.placing.get(chain[0] ?? -1)?.zeroMin ?? 0)) + shiftMin;
  const readyMin = Math.max(0, ...pots.map((pot) => pot.readyMin));
  if (isBack && firstMin < nowMin + readyMin) {
    // There is no time left to be done by then: what can be had from now.
    return plannedDay({ ...input, hours: { ...input.hours, fromMin: nowMin } }, isQuick);
  }
  return told({ input, jobs, pots, found, shiftMin, findings });
}

/** Hands that come for a while, and pots under way, stand on the clock already: such a day is planned forwards. */
const isPlannedBack = ({ hours, pots, kit }: DayInput): boolean =>
  hours.fromMin === null && hours.toMin !== null && kit.more === undefined && pots.every(({ begunAtMin }) => begunAtMin === undefined); // prettier-ignore

const shiftBack = (input: DayInput, endMin: number): number =>
  Math.floor(((input.hours.toMin ?? endMin) - endMin) / GRID_MIN) * GRID_MIN;

interface Found {
  readonly placed: Placed;
  readonly boundMin: number;
  readonly isProven: boolean;
  readonly by: DayPlan['by'];
}

/** The best day that is found, and how good any day could be. */
function solved(from: { readonly placing: PlacingInput; readonly isQuick: boolean }): Found | null {
  const { placing, isQuick } = from;
  const first = placePots(placing);
  if (first === null) return null;
  if (isQuick) return { placed: first, boundMin: first.endMin, isProven: false, by: 'placing' };
  const simple = boundOf(placing, first);
  if (simple >= first.endMin) return { placed: first, boundMin: simple, isProven: true, by: 'placing' };
  const { boundMin, startsMin } = boundByShares({ input: placing, best: first, boundMin: simple });
  const near = startsMin === null ? first : placeNear(placing, startsMin, first);
  const better = boundMin >= near.endMin ? { placed: near, isProven: true } : improve(placing, near);
  const { placed, isProven } = better.isProven
    ? better
    : { placed: bestWithLess(placing, better.placed), isProven: false };
  const by = placed === first || (placed !== near && placed !== better.placed) ? 'placing' : 'solver';
  const isBest = isProven || boundMin >= placed.endMin;
  return { placed, boundMin: isBest ? placed.endMin : boundMin, isProven: isBest, by };
}

/** Orders of the pots that are tried, of all there are: for a plan, and for trying a change on it. Own choice, as measured. */
const MANY_ORDERS = 24;
const FEW_ORDERS = 4;
const HELD_BACK = 3; // rounds of holding pots back, one for trying a change: own choice
const EARLIEST_MIN = 0;
const LESSENED: readonly Resource[] = ['burner', 'kettle'];

function bestWithLess(placing: PlacingInput, best: Placed): Placed {
  let found = best;
  for (const resource of LESSENED) {
    const places = placing.scarce.places[resource];
    for (let fewer = (places ?? 0) - 1; fewer >= 1; fewer--) {
      const scarce = { ...placing.scarce, places: { ...placing.scarce.places, [resource]: fewer } };
      const less = placePots({ ...placing, scarce });
      if (less !== null && isBetter(less, found)) found = less;
    }
  }
  return found;
}

/** Pots that can be planned, and why the others cannot. */
function sorted(input: DayInput): { readonly findings: DayFinding[]; readonly possible: DayPot[] } {
  const findings: DayFinding[] = [];
  const possible = input.pots.filter((pot) => {
    const { pots, jobs } = jobsOf({ pots: [pot], kit: input.kit });
    const [one] = pots;
    if (one === undefined || !one.ends) {
      findings.push({ code: 'not-seen-to-end', fields: { potId: pot.id, makeId: pot.makeId } });
      return false;
    }
    const missing = missingKit({ day: input, pot, jobs, pots });
    if (missing !== null) findings.push(missing);
    return missing === null;
  });
  return { findings, possible };
}

function told(from: {
  readonly input: DayInput;
  readonly jobs: readonly Job[];
  readonly pots: readonly PotJobs[];
  readonly found: Found;
  readonly shiftMin: number;
  readonly findings: readonly DayFinding[];
}): DayPlan {
  const { input, jobs, pots, found, shiftMin } = from;
  const placed = placedPots({ jobs, pots, placing: found.placed.placing, shiftMin });
  const wants = wantsOf({ jobs, placing: found.placed.placing, shiftMin });
  const laid = layOut({ day: input, pots, placed, busy: wants });
  const preparations = [...heatedPreparations(wants), ...laid.preparations].sort((a, b) => a.startMin - b.startMin);
  const startMin = Math.min(...placed.map((pot) => pot.startMin));
  const endMin = Math.max(...placed.map(({ doneMin }) => doneMin));
  const boundMin = Math.min(endMin, found.boundMin + shiftMin);
  const late = laid.late.map(({ isNight, ...fields }): DayFinding => ({ code: isNight ? 'night-gone' : 'short-notice', fields })); // prettier-ignore
  return {
    pots: placed,
    preparations,
    holds: withUnits([...wants, ...laid.wants], input.kit),
    startMin,
    endMin,
    boundMin,
    gap: found.isProven || endMin <= startMin ? 0 : (endMin - boundMin) / (endMin - startMin),
    isProven: found.isProven,
    by: found.by,
    findings: [...from.findings, ...tooLong(input, placed, endMin), ...late, ...clashesUnderWay(input, wants)],
    ways: [],
  };
}

/** Past the hours: a pot that cannot fit in them even alone, or all together. */
function tooLong({ hours, pots }: DayInput, placed: DayPlan['pots'], endMin: number): DayFinding[] {
  const { toMin } = hours;
  if (toMin === null || endMin <= toMin) return [];
  const fromMin = Math.max(hours.fromMin ?? Number.NEGATIVE_INFINITY, hours.nowMin ?? Number.NEGATIVE_INFINITY);
  const alone = placed.filter(
    ({ startMin, doneMin, keptCold }) => keptCold === null && doneMin - startMin > toMin - fromMin,
  );
  const found = alone.map(({ potId, startMin, doneMin }): DayFinding => ({
    code: 'pot-too-long',
    fields: { potId, makeId: pots.find(({ id }) => id === potId)?.makeId ?? '', needsMin: doneMin - startMin, hasMin: toMin - fromMin },
  })); // prettier-ignore
  return found.length > 0 ? found : [{ code: 'day-too-long', fields: { endMin, toMin, overMin: endMin - toMin } }];
}

/** Pots that have begun cannot be moved: where they want more than there is, somebody has to wait. */
function clashesUnderWay(input: DayInput, wants: ReturnType<typeof wantsOf>): DayFinding[] {
  const begun = new Set(input.pots.filter(({ begunAtMin }) => begunAtMin !== undefined).map(({ id }) => id));
  if (begun.size < 2) return [];
  return RESOURCES.flatMap((resource): DayFinding[] => {
    const places = input.kit[resource];
    const mine = wants.filter((want) => want.resource === resource && begun.has(want.potId));
    if (places === undefined) return [];
    const over = mine.filter(({ fromMin }) => mine.filter((one) => one.fromMin <= fromMin && one.toMin > fromMin).length > places); // prettier-ignore
    return over.map(({ potId, stepId, fromMin }) => ({ code: 'clash-under-way', fields: { resource, potId, stepId, fromMin } })); // prettier-ignore
  });
}

function emptyDay({ hours }: DayInput, findings: readonly DayFinding[]): DayPlan {
  const at = hours.fromMin ?? hours.nowMin ?? hours.toMin ?? 0;
  return { pots: [], preparations: [], holds: [], startMin: at, endMin: at, boundMin: at, gap: 0, isProven: false, by: 'placing', findings, ways: [] }; // prettier-ignore
}
