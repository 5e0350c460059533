import { NO_HISTORY, type History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import { normalHypercube } from '../numbers/normal.ts';
import { baseVariant, MOST_SIZES, suppose, type Supposed } from './causes-applied.ts';
import { causesFor, type Cause } from './causes.ts';
import { AFTER_VAT, type Course } from './course.ts';
import { missingOf, type Missing } from './explain-apart.ts';
import type { Clue } from './explain-clue.ts';
import { cluesOf } from './explain-clues.ts';
import type { FaultsSaid } from './explain-faults.ts';
import { seen, wantedMin, type Seen } from './explain-seen.ts';
import { expectedOf, weigh, type Weighed } from './explain-weigh.ts';
import { inputsOf } from './inputs.ts';
import { runMember } from './member.ts';
import { decisionsOf, type Decisions } from './pieces.ts';
import { DIMENSIONS, UNCERTAIN, type Beliefs } from './uncertain.ts';
import { newVat, type Vat } from './vat-state.ts';

/** One cause, or "nothing unusual", held against a record. */
export interface Hypothesis {
  readonly cause: Cause | null;
  readonly prior: number;
  /** One entry a clue. */
  readonly weighed: readonly Weighed[];
  readonly logEvidence: number;
  /** What the missing readings would have shown, all clues taken in. */
  readonly missing: { readonly mean: Float64Array; readonly sd: Float64Array };
}

/** A record held against all causes; answers to questions come later (`explain.ts`). */
export interface Weighing {
  readonly course: Course;
  readonly clues: readonly Clue[];
  readonly missing: readonly Missing[];
  /** "Nothing unusual" first. */
  readonly hypotheses: readonly Hypothesis[];
  readonly members: number;
  readonly seed: number;
}

export interface WeighInput {
  readonly plan: Plan;
  readonly history: History;
  /** What was said of the outcome; null where nobody said anything. */
  readonly faults: FaultsSaid | null;
  readonly beliefs?: Beliefs;
  /** Members run for each cause, 30 to 1000; 120 where left out. */
  readonly members?: number;
  /** Any integer; 1 where left out. The same seed gives the same answer. */
  readonly seed?: number;
}

/** Of makes that somebody asks about because of trouble, this share had nothing unusual about them: our own choice. */
const NOTHING_UNUSUAL = 0.2;
/** So much later than usual is trouble too: our own choice. */
const LATE_MIN = 60;
const MEMBERS = { least: 30, usual: 120, most: 1000 } as const;
/** Each row: a member's inputs, the sizes of the cause, the maker's patience. */
const COLUMNS = DIMENSIONS + MOST_SIZES + 1;

/**
 * Runs the record's own make under every cause, with the same members each time, and weighs what each expected against what was
 * noted. A cause that leaves the vat as it was shares the runs of "nothing unusual".
 */
export function weighCauses(input: WeighInput): Weighing {
  const { plan, history, faults } = input;
  const members = Math.round(Math.min(Math.max(input.members ?? MEMBERS.usual, MEMBERS.least), MEMBERS.most));
  const seed = Math.trunc(input.seed ?? 1);
  const rows = rowsOf({ members, seed, beliefs: input.beliefs ?? {} });
  const base = baseVariant({ plan, history, decisions: usualDecisions });
  const vat = newVat(inputsOf(base.ground, new Float64Array(DIMENSIONS)));
  const causes: (Cause | null)[] = [null, ...causesFor({ plan, history })];
  const suppositions = causes.map((cause) => suppose({ plan, history, cause, base }));
  const usualMin = usualMinutes(plan);
  const missing = missingOf(base.course);
  const expected: Float64Array[][] = causes.map(() => []);
  let clues: readonly Clue[] = [];
  for (let index = 0; index < members; index++) {
    const row = rows.subarray(index * COLUMNS, index * COLUMNS + DIMENSIONS);
    const sizes = rows.subarray(index * COLUMNS + DIMENSIONS, index * COLUMNS + DIMENSIONS + MOST_SIZES);
    const patienceZ = rows[index * COLUMNS + COLUMNS - 1] ?? 0;
    let usual: Seen | null = null;
    for (const [at, supposition] of suppositions.entries()) {
      const supposed = supposition.member({ index, row, sizes });
      const member: Seen =
        usual !== null && sharesWalk(supposition.cause, supposed, usual)
          ? { ...usual, supposed }
          : runSupposed({ supposed, vat, patienceZ });
      usual ??= member;
      if (index === 0 && at === 0) {
        const sdOf = (reading: number): number => member.run.expectedSd[reading] ?? Number.NaN;
        clues = cluesOf({ course: base.course, faults, usualMin, sdOf });
      }
      expected[at]?.push(Float64Array.from([...clues, ...missing], (one) => one.expect(member)));
    }
  }
  const rates = causes.reduce((sum, cause) => sum + (cause?.rate ?? 0), 0);
  // Asked about though nothing tells of trouble: then it is as likely as in any make.
  const nothing = hasTrouble({ course: base.course, faults, usualMin }) ? NOTHING_UNUSUAL : Math.max(1 - rates, NOTHING_UNUSUAL); // prettier-ignore
  const hypotheses = causes.map((cause, at): Hypothesis => {
    const weighing = weigh(expectedOf(expected[at] ?? []), clues.map(({ likelihood }) => likelihood)); // prettier-ignore
    return {
      cause,
      prior: cause === null ? nothing : ((1 - nothing) * cause.rate) / rates,
      weighed: weighing.clues,
      logEvidence: weighing.clues.reduce((sum, { logLikelihood }) => sum + logLikelihood, 0),
      missing: { mean: weighing.after.mean.slice(clues.length), sd: weighing.after.sd.slice(clues.length) },
    };
  });
  return { course: base.course, clues, missing, hypotheses, members, seed };
}

/** True where a fault was said, the make was given up at the vat, or its steps took an hour longer than usual. */
function hasTrouble(input: { course: Course; faults: FaultsSaid | null; usualMin: readonly number[] }): boolean {
  const { course, faults, usualMin } = input;
  const noted = course.steps.filter(({ startedMin }) => startedMin !== null);
  const last = noted.at(-1);
  const later = noted.reduce((sum, { index, startedMin, endedMin, nextStartedMin }) => {
    const minutes = (endedMin ?? nextStartedMin ?? course.nowMin) - (startedMin ?? 0);
    const usual = usualMin[index] ?? Number.NaN;
    return sum + (Number.isNaN(usual) ? 0 : minutes - usual);
  }, 0);
  const isGivenUp = last !== undefined && !AFTER_VAT.has(last.verb);
  return faults?.some(({ isThere }) => isThere) === true || isGivenUp || later > LATE_MIN;
}

/** Latin hypercube rows, those that the kitchen has learned something of moved and narrowed. */
function rowsOf(input: { members: number; seed: number; beliefs: Beliefs }): Float64Array {
  const rows = normalHypercube({ members: input.members, dimensions: COLUMNS, seed: input.seed });
  for (const [at, name] of UNCERTAIN.entries()) {
    const belief = input.beliefs[name];
    if (belief === undefined) continue;
    for (let i = at; i < rows.length; i += COLUMNS) rows[i] = belief.mean + belief.sd * (rows[i] ?? 0);
  }
  return rows;
}

/** Sizes and times of pieces as the plan tells them: for the moisture that the make aims at. */
export function usualDecisions(course: Course): Decisions {
  const aimed = course.plan.make.aims.find((aim) => aim.quantity === 'moisturePercent')?.aim ?? 50;
  return decisionsOf({ course, moisturePercent: aimed, fatPercent: 22 });
}

/** Minutes that each step lasts where nothing is unusual and nothing noted. */
export function usualMinutes(plan: Plan): number[] {
  const base = baseVariant({ plan, history: NO_HISTORY, decisions: usualDecisions });
  const row = new Float64Array(DIMENSIONS);
  const supposition = suppose({ plan, history: NO_HISTORY, cause: null, base });
  const supposed = supposition.member({ index: 0, row, sizes: new Float64Array(MOST_SIZES) });
  const member = runSupposed({ supposed, vat: newVat(supposed.inputs), patienceZ: 0 });
  return base.course.steps.map((step) => wantedMin(member, step));
}

function runSupposed(input: { supposed: Supposed; vat: Vat; patienceZ: number }): Seen {
  const { supposed, vat } = input;
  const { course, observations } = supposed.variant;
  const run = runMember({ course, inputs: supposed.inputs, vat, observations, decisions: supposed.decisions });
  return seen({ supposed, run, vat, patienceZ: input.patienceZ });
}

/** True where a cause leaves the vat as it was: only lengths of steps, already noted, or what comes after. */
function sharesWalk(cause: Cause | null, supposed: Supposed, usual: Seen): boolean {
  return (
    cause !== null &&
    supposed.decisions === usual.supposed.decisions &&
    cause.shifts === undefined &&
    cause.factors === undefined &&
    cause.settings === undefined &&
    Object.keys(cause.offsets ?? {}).every((name) => name === 'stretchWaterC')
  );
}
