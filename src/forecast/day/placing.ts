import { seededRandom } from '../../numbers/random.ts';
import type { Job, Mode, PotJobs } from './jobs.ts';
import { ordersOf } from './orders.ts';
import { Profile, type Scarce } from './profile.ts';
import { GRID_MIN } from './rules.ts';
import { APART_MIN, heldBackTries, varied, type Try } from './tries.ts';

/** Where each job stands: its zero on the day's clock, and which of its ways. By the job's index. */
export type Placing = ReadonlyMap<number, { readonly zeroMin: number; readonly mode: number }>;

export interface Placed {
  readonly placing: Placing;
  /** When the last pot's day is over. */
  readonly endMin: number;
  /** Sum of all pots' ends: of two days that end alike, the one whose pots are over sooner. */
  readonly sumMin: number;
}

export interface PlacingInput {
  readonly jobs: readonly Job[];
  readonly pots: readonly PotJobs[];
  readonly scarce: Scarce;
  /** No pot begins before. */
  readonly fromMin: number;
  /** Nothing at all is done before; left out, what must be ready may be made ready earlier. */
  readonly nowMin: number;
  /** How many orders of the pots are tried, of all there are. */
  readonly orders: number;
  /** How often pots are held back before a step, to let others on to what they want; 0 for a quick day. */
  readonly heldBack: number;
}

const MOST_TRIES = 30; // places tried for the parts of one pot before its start is given up: own choice

/** The span of minutes within which everything can stand, however it is placed. */
export function horizonOf({ jobs, pots, fromMin }: PlacingInput): { readonly fromMin: number; readonly toMin: number } {
  const reach = (job: Job): number =>
    Math.max(0, ...job.modes.flatMap(({ uses, lag }) => [lag?.least ?? 0, ...uses.map(({ toMin }) => toMin)]));
  const fixed = jobs.flatMap(({ fixedAtMin }) => fixedAtMin ?? []);
  const total = jobs.reduce((sum, job) => sum + reach(job) + GRID_MIN, 0);
  const own = jobs.flatMap(({ earliestMin }) => earliestMin ?? []);
  const earliest = Math.min(fromMin, ...fixed, ...own);
  return {
    fromMin: earliest - 24 * 60,
    toMin: Math.max(fromMin, ...fixed, ...own) + total + pots.length * GRID_MIN + 24 * 60,
  };
}

/**
 * The best of many days, each built by placing one pot after the other as early as it fits (serial list scheduling): in many
 * orders of the pots, begun at once or some minutes apart, then with single pots begun later by chance, and at last with pots
 * held back a little before a step, so that another comes on the burner first.
 * @returns null where a pot does not fit even alone
 */
export function placePots(input: PlacingInput): Placed | null {
  const horizon = horizonOf(input);
  const profile = new Profile({ kit: input.scarce, ...horizon });
  let best: Placed | null = null;
  let bestTry: Try | null = null;
  const attempt = (one: Try): void => {
    const placed = placeInOrder({ input, profile, latestMin: horizon.toMin, one, than: best });
    if (placed === null || (best !== null && !isBetter(placed, best))) return;
    [best, bestTry] = [placed, one];
  };
  const orders = ordersOf(input.pots, input.orders);
  for (const order of orders) attempt({ order, notBefore: order.map(() => 0), lags: NO_LAGS });
  if (input.pots.length < 2 || best === null) return best;
  // Pots that begin together want hands together: begun apart, more of them may fit beside each other.
  for (const order of orders.slice(0, Math.ceil(input.orders / APART_MIN.length))) {
    for (const apart of APART_MIN) attempt({ order, notBefore: order.map((_, nth) => nth * apart), lags: NO_LAGS });
  }
  const random = seededRandom(input.orders + input.pots.length);
  for (let round = 0; round < input.orders; round++) {
    const from: Try | null = bestTry;
    if (from !== null) attempt(varied(from, random));
  }
  for (let round = 0; round < input.heldBack; round++) {
    const from: Try | null = bestTry;
    const placed: Placed | null = best;
    if (from === null || placed === null) break;
    for (const one of heldBackTries({ from, placed, input })) attempt(one);
    if (bestTry === from) break;
  }
  return best;
}

/**
 * Days near given starts: pots in the order of these, none before its own, then by chance a little off.
 * @param startsMin one for each pot, as a linear program shared them out
 * @returns the best that beats `best`, else `best`
 */
export function placeNear(input: PlacingInput, startsMin: readonly number[], best: Placed): Placed {
  const horizon = horizonOf(input);
  const profile = new Profile({ kit: input.scarce, ...horizon });
  const order = startsMin.map((_, index) => index).sort((a, b) => (startsMin[a] ?? 0) - (startsMin[b] ?? 0));
  const near = { order, notBefore: order.map((pot) => Math.max(0, Math.floor(((startsMin[pot] ?? 0) - input.fromMin) / GRID_MIN) * GRID_MIN)), lags: NO_LAGS }; // prettier-ignore
  const random = seededRandom(order.length);
  let [found, from]: [Placed, Try] = [best, near];
  for (let round = 0; round < input.orders; round++) {
    const one = round === 0 ? near : varied(from, random);
    const placed = placeInOrder({ input, profile, latestMin: horizon.toMin, one, than: found });
    if (placed !== null && isBetter(placed, found)) [found, from] = [placed, one];
  }
  return found;
}

const NO_LAGS: Try['lags'] = new Map();

export const isBetter = (a: Placed, b: Placed): boolean =>
  a.endMin < b.endMin || (a.endMin === b.endMin && a.sumMin < b.sumMin);

/** Pots in the order given, each as early as it fits beside those before it; null where one never does or `than` is not beaten. */
function placeInOrder(from: {
  readonly input: PlacingInput;
  readonly profile: Profile;
  readonly latestMin: number;
  readonly one: Try;
  readonly than: Placed | null;
}): Placed | null {
  const { input, profile, latestMin, one, than } = from;
  const { pots, jobs, fromMin } = input;
  const placing = new Map<number, { zeroMin: number; mode: number }>();
  let endMin = Number.NEGATIVE_INFINITY;
  let sumMin = 0;
  const places = one.order.map((index, nth) => ({ pot: pots[index], laterMin: one.notBefore[nth] ?? 0 }));
  for (const { pot, laterMin } of places.sort((a, b) => Number(isBegun(b.pot)) - Number(isBegun(a.pot)))) {
    const done =
      pot === undefined ? null : placePot({ input, pot, profile, placing, latestMin, laterMin, lags: one.lags });
    endMin = Math.max(endMin, done ?? Number.POSITIVE_INFINITY);
    sumMin += done ?? 0;
    if (endMin > (than?.endMin ?? Number.MAX_VALUE)) break;
  }
  // The profile is left as it was found, for the next day that is tried on it.
  for (const [index, { zeroMin, mode }] of placing) {
    const taken = jobs[index]?.modes[mode];
    if (taken !== undefined) profile.take(taken, zeroMin);
  }
  return Number.isFinite(endMin) && endMin <= (than?.endMin ?? Number.MAX_VALUE)
    ? { placing, endMin: Math.max(endMin, fromMin), sumMin }
    : null;
}

const isBegun = (pot: PotJobs | undefined): boolean => pot?.pot.begunAtMin !== undefined;

interface OnePot {
  readonly input: PlacingInput;
  readonly pot: PotJobs;
  readonly profile: Profile;
  readonly placing: Map<number, { zeroMin: number; mode: number }>;
  readonly latestMin: number;
  /** How long after the soonest that anything of the day could begin. */
  readonly laterMin: number;
  readonly lags: Try['lags'];
}

/** Puts one pot at its earliest start. @returns when its day is over */
function placePot(one: OnePot): number | null {
  const { input, pot, profile, latestMin } = one;
  const first = input.jobs[pot.chain[0] ?? -1];
  if (first === undefined) return null;
  if (first.fixedAtMin !== null) return tryAt(one, first.fixedAtMin, true);
  const lengthMin = pot.times.at(-1)?.end.late ?? 0;
  const soonest = (first.earliestMin ?? input.fromMin) + one.laterMin;
  const from = Math.ceil(Math.max(soonest, earliestOf(input, first, pot)) / GRID_MIN) * GRID_MIN;
  const [mode] = first.modes;
  if (mode === undefined) return null;
  for (let zeroMin = from; zeroMin <= latestMin - 24 * 60 - lengthMin; zeroMin += GRID_MIN) {
    const next = profile.clash(mode, zeroMin);
    if (next !== null) {
      zeroMin = Math.max(zeroMin, Math.ceil(next / GRID_MIN) * GRID_MIN - GRID_MIN);
      continue;
    }
    const done = tryAt(one, zeroMin, false);
    if (done !== null) return done;
  }
  return null;
}

/** Before this a job does not stand, whatever it follows. */
export function earliestOf(
  input: Pick<PlacingInput, 'fromMin' | 'nowMin'>,
  job: Job,
  pot: Pick<PotJobs, 'readyMin'>,
): number {
  if (job.preparationId !== null) return input.nowMin;
  // A later part of a pot is counted from the pot's own zero, which may be long past.
  if (job.after !== null && job.earliestMin === null) return Number.NEGATIVE_INFINITY;
  return Math.max(job.earliestMin ?? input.fromMin, job.after === null ? input.nowMin + pot.readyMin : input.nowMin);
}

/** One pot with its first job at a given minute, the rest of it by trying; what does not fit is taken off again. */
function tryAt(one: OnePot, zeroMin: number, isForced: boolean): number | null {
  const { input, pot, profile, placing } = one;
  let tries = MOST_TRIES;
  let done: number | null = null;
  const stand = (nth: number, index: number, at: Found, mode: Mode): boolean => {
    tries--;
    profile.put(mode, at.zeroMin);
    placing.set(index, at);
    if (from(nth + 1)) return true;
    profile.take(mode, at.zeroMin);
    placing.delete(index);
    return false;
  };
  const from = (nth: number): boolean => {
    const index = pot.all[nth];
    const job = input.jobs[index ?? -1];
    if (index === undefined || job === undefined) return true;
    const before = job.after === null ? null : (placing.get(job.after)?.zeroMin ?? zeroMin);
    for (const [number, mode] of job.modes.entries()) {
      const { least, most } = spanOf({ job, mode, before, zeroMin, pot, input, heldBackMin: one.lags.get(index) ?? 0 }); // prettier-ignore
      // A make goes on as soon as it can; water is put on as late as it may.
      const isLate = job.preparationId !== null;
      for (let at = isLate ? most : least; at >= least && at <= most;) {
        if (tries <= 0) return false;
        const free = profile.clash(mode, at);
        if (free === null && stand(nth, index, { zeroMin: at, mode: number }, mode)) return true;
        at = isLate ? at - GRID_MIN : free === null ? at + GRID_MIN : Math.max(free, at + 1);
      }
    }
    // What is under way already stands where it is, whatever it is in the way of; what is late is begun at once.
    const [mode] = job.modes;
    if (!isForced || mode === undefined) return false;
    const latest = before === null ? zeroMin : Math.max(input.nowMin, before + (job.preparationId === null ? (mode.lag?.least ?? 0) : (mode.lag?.most ?? 0))); // prettier-ignore
    tries = MOST_TRIES;
    return stand(nth, index, { zeroMin: latest, mode: 0 }, mode);
  };
  if (!from(0)) return null;
  for (const index of pot.chain) {
    const doneMin = input.jobs[index]?.doneMin ?? null;
    if (doneMin !== null) done = (placing.get(index)?.zeroMin ?? 0) + doneMin;
  }
  return done;
}

type Found = { readonly zeroMin: number; readonly mode: number };

/** Where a job may stand after another, on the grid: a make that need not wait goes on at the very minute it left off. */
function spanOf(from: {
  readonly job: Job;
  readonly mode: Mode;
  readonly before: number | null;
  readonly zeroMin: number;
  readonly pot: PotJobs;
  readonly input: PlacingInput;
  readonly heldBackMin: number;
}): { readonly least: number; readonly most: number } {
  const { job, mode, before, zeroMin, pot, input, heldBackMin } = from;
  if (before === null || mode.lag === null) return { least: zeroMin, most: zeroMin };
  const low = Math.max(before + mode.lag.least, earliestOf(input, job, pot));
  const anchor = job.preparationId === null ? before + Math.min(heldBackMin, mode.lag.most) : 0;
  const least = anchor + Math.max(0, Math.ceil((low - anchor) / GRID_MIN)) * GRID_MIN;
  const most = job.preparationId === null ? before + mode.lag.most : Math.floor((before + mode.lag.most) / GRID_MIN) * GRID_MIN; // prettier-ignore
  return { least, most };
}

/** Grid times between two minutes; without any, none. A make that need not wait goes on at the very minute it left off. */
export function startsBetween(input: {
  readonly least: number;
  readonly most: number;
  readonly from: number;
  /** The minute that the steps of the grid are counted from. */
  readonly anchor: number;
}): number[] {
  const { least, most, from, anchor } = input;
  const low = Math.max(least, from);
  const first = anchor + Math.ceil((low - anchor) / GRID_MIN) * GRID_MIN;
  const starts: number[] = [];
  for (let at = first; at <= most; at += GRID_MIN) starts.push(at);
  return starts;
}
