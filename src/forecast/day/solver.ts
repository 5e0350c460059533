import { answerProgram, type Row } from './milp.ts';
import { isAlike } from './orders.ts';
import { earliestOf, isBetter, startsBetween, type Placed, type PlacingInput } from './placing.ts';
import { onceEach, withinKit, type Candidate } from './program.ts';

/** A program with more figures than this is not tried: the simplex method would take seconds. Own choice, as measured. */
const MOST_FIGURES = { whole: 40_000, shares: 60_000 } as const;
const MOST_COLUMNS = 1500;
const BRANCHES = 10; // tried before the solver gives up: own choice, as measured
const ROUNDS = 4; // times that a better day is asked for: own choice
const HALVINGS = 3; // times that the bound is looked for halfway: own choice

export interface Solved {
  readonly placed: Placed;
  /** True where the solver showed that no plan ends sooner. */
  readonly isProven: boolean;
}

/** Asks the solver for a day that ends sooner than the one given, again and again, until there is none or it gives up. */
export function improve(input: PlacingInput, placed: Placed): Solved {
  let best = placed;
  for (let round = 0; round < ROUNDS; round++) {
    const program = programFor({ input, best, byMin: best.endMin - 1, most: MOST_FIGURES.whole });
    if (program === 'none') return { placed: best, isProven: true };
    if (program === null) break;
    const answer = answerProgram({ ...program, whole: true, branches: BRANCHES });
    if (answer.is === 'none') return { placed: best, isProven: true };
    if (answer.is === 'given-up') break;
    const next = placedAs(input, answer.taken.flatMap(([column, share]) => (share > 0.5 ? (program.candidates[column] ?? []) : []))); // prettier-ignore
    if (next === null || !isBetter(next, best)) break;
    best = next;
  }
  return { placed: best, isProven: false };
}

export interface Bound {
  readonly boundMin: number;
  /** Where the soonest day that shares of pots could have begins each pot, on average; null where none was worked out. */
  readonly startsMin: readonly number[] | null;
}

/**
 * How soon the day could end if pots could be shared out over several starts: the linear program without whole numbers. An end
 * that is impossible even so is impossible for every plan; halving finds the soonest that is not.
 * @param from.boundMin  no plan ends sooner, as far as is known already
 */
export function boundByShares(from: {
  readonly input: PlacingInput;
  readonly best: Placed;
  readonly boundMin: number;
}): Bound {
  const { input, best } = from;
  let { boundMin } = from;
  let startsMin: readonly number[] | null = null;
  let high = best.endMin - 1;
  let byMin = high;
  for (let round = 0; round <= HALVINGS && boundMin <= high; round++) {
    const program = programFor({ input, best, byMin, most: MOST_FIGURES.shares });
    const answer =
      program === 'none' || program === null ? program : answerProgram({ ...program, whole: false, branches: 0 });
    // What is too large for a late end is smaller for a sooner one.
    if (answer === null || (answer !== 'none' && answer.is === 'given-up')) high = byMin - 1;
    else if (answer === 'none' || answer.is === 'none') boundMin = byMin + 1;
    else {
      high = byMin - 1;
      if (program !== 'none' && program !== null && answer.is === 'found') startsMin = averageStarts(input, program.candidates, answer.taken); // prettier-ignore
    }
    byMin = Math.floor((boundMin + high) / 2);
  }
  return { boundMin: Math.min(boundMin, best.endMin), startsMin };
}

function averageStarts(input: PlacingInput, candidates: readonly Candidate[], taken: readonly (readonly [number, number])[]): number[] {
  return input.pots.map(({ chain }) =>
    taken.reduce((sum, [column, share]) => {
      const candidate = candidates[column];
      return candidate !== undefined && candidate.job === chain[0] ? sum + share * candidate.zeroMin : sum;
    }, 0),
  );
} // prettier-ignore

/** The whole day as a program: is there a plan that is over by `byMin`? Null where it is too large to ask. */
function programFor(from: {
  readonly input: PlacingInput;
  readonly best: Placed;
  readonly byMin: number;
  readonly most: number;
}):
  | { readonly candidates: readonly Candidate[]; readonly rows: readonly Row[]; readonly costs: readonly number[] }
  | 'none'
  | null {
  const { input, best, byMin, most } = from;
  const windows = windowsOf(input, best, byMin);
  if (windows === null) return 'none';
  const candidates = input.jobs.flatMap((job, index) => {
    const window = windows[index];
    if (window === undefined) return [];
    return job.modes.flatMap((mode, number): Candidate[] => {
      const isFixed = window.least === window.most && window.isFixed;
      const starts = isFixed ? [window.least] : startsBetween({ ...window, from: window.least, anchor: 0 });
      if (isFixed && number !== (best.placing.get(index)?.mode ?? 0)) return [];
      return starts.map((zeroMin) => ({ job: index, zeroMin, mode: number, isFixed, uses: mode.uses }));
    });
  });
  if (candidates.length > MOST_COLUMNS) return null;
  if (new Set(candidates.map(({ job }) => job)).size < input.jobs.length) return 'none';
  const rows = [...onceEach(candidates), ...lagRows(input, candidates), ...alikeRows(input, candidates), ...withinKit(candidates, input.scarce)]; // prettier-ignore
  const costs = candidates.map(({ zeroMin }) => zeroMin - input.fromMin);
  return rows.length * candidates.length > most ? null : { candidates, rows, costs };
}

interface Window {
  least: number;
  most: number;
  readonly isFixed: boolean;
}

/** When each job can begin at all, so that the day is over in time; null where one cannot. */
function windowsOf(input: PlacingInput, best: Placed, byMin: number): Window[] | null {
  const { jobs, pots } = input;
  const begun = new Set(pots.filter(({ pot }) => pot.begunAtMin !== undefined).map(({ pot }) => pot.id));
  const byId = new Map(pots.map((pot) => [pot.pot.id, pot]));
  const windows = jobs.map((job, index): Window => {
    const at = best.placing.get(index)?.zeroMin ?? 0;
    if (begun.has(job.potId)) return { least: at, most: at, isFixed: true };
    return { least: earliestOf(input, job, byId.get(job.potId) ?? { readyMin: 0 }), most: job.doneMin === null ? Number.POSITIVE_INFINITY : byMin - job.doneMin, isFixed: false };
  }); // prettier-ignore
  // Forwards from each job to those after it, then back: one pass each way settles a tree.
  for (const [index, job] of jobs.entries()) {
    const own = windows[index];
    const before = windows[job.after ?? -1];
    if (own === undefined || before === undefined || own.isFixed) continue;
    own.least = Math.max(own.least, before.least + lagLeast(job));
    own.most = Math.min(own.most, before.most + lagMost(job));
  }
  for (let index = jobs.length - 1; index >= 0; index--) {
    const job = jobs[index];
    const own = windows[index];
    const before = windows[job?.after ?? -1];
    if (job === undefined || own === undefined || before === undefined || before.isFixed) continue;
    before.most = Math.min(before.most, own.most - lagLeast(job));
  }
  for (const [index, job] of jobs.entries()) {
    const own = windows[index];
    const before = windows[job.after ?? -1];
    if (own === undefined || before === undefined || own.isFixed) continue;
    own.most = Math.min(own.most, before.most + lagMost(job));
  }
  return windows.some(({ least, most }) => least > most) ? null : windows;
}

const lagLeast = ({ modes }: PlacingInput['jobs'][number]): number =>
  Math.min(...modes.map(({ lag }) => lag?.least ?? 0));
const lagMost = ({ modes }: PlacingInput['jobs'][number]): number =>
  Math.max(...modes.map(({ lag }) => lag?.most ?? 0));

/** Each job comes no sooner and no later after the one before than it may. */
function lagRows({ jobs }: PlacingInput, candidates: readonly Candidate[]): Row[] {
  return jobs.flatMap((job, index): Row[] => {
    if (job.after === null || candidates.some(({ job: one, isFixed }) => one === index && isFixed)) return [];
    const before = columnsOf(candidates, job.after).map(([column, { zeroMin }]) => [column, -zeroMin] as const);
    const own = (bound: 'least' | 'most'): (readonly [number, number])[] =>
      columnsOf(candidates, index).map(([column, { zeroMin, mode }]) => [column, zeroMin - (job.modes[mode]?.lag?.[bound] ?? 0)] as const); // prettier-ignore
    return [
      { terms: [...own('least'), ...before], least: 0 },
      { terms: [...own('most'), ...before], most: 0 },
    ];
  });
}

/** Of pots that are the same in everything the first begins first: half as many days to tell apart, for each such pair. */
function alikeRows({ pots }: PlacingInput, candidates: readonly Candidate[]): Row[] {
  return pots.flatMap((pot, index): Row[] => {
    const alike = pots.slice(index + 1).find((other) => isAlike(pot, other));
    const [one, other] = [pot.chain[0], alike?.chain[0]];
    if (one === undefined || other === undefined) return [];
    const signed = (job: number, sign: 1 | -1): (readonly [number, number])[] =>
      columnsOf(candidates, job).map(([column, { zeroMin }]) => [column, sign * zeroMin] as const);
    return [{ terms: [...signed(other, 1), ...signed(one, -1)], least: 0 }];
  });
}

const columnsOf = (candidates: readonly Candidate[], job: number): (readonly [number, Candidate])[] =>
  candidates.flatMap((candidate, column) => (candidate.job === job ? [[column, candidate] as const] : []));

/** What the solver took, as a placing; null where it is not whole. */
function placedAs({ jobs, fromMin }: PlacingInput, taken: readonly Candidate[]): Placed | null {
  const placing = new Map(taken.map(({ job, zeroMin, mode }) => [job, { zeroMin, mode }]));
  if (placing.size < jobs.length || taken.length > jobs.length) return null;
  const ends = jobs.flatMap(({ doneMin }, index) =>
    doneMin === null ? [] : [(placing.get(index)?.zeroMin ?? 0) + doneMin],
  );
  return { placing, endMin: Math.max(fromMin, ...ends), sumMin: ends.reduce((sum, end) => sum + end, 0) };
}
