import { NO_HISTORY, type History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import { equalMembers, traceBands } from './bands.ts';
import { courseOf, type Course } from './course.ts';
import { rowAt, type MemberAnswer } from './draw.ts';
import { runEnsemble, type Ensemble, type EnsembleInput } from './ensemble.ts';
import { findingsOf } from './findings.ts';
import type { Forecast } from './forecast.ts';
import { invitationOf } from './invitation.ts';
import { groundOf, inputsOf, type Ground } from './inputs.ts';
import { runMember, runSizes } from './member.ts';
import { decisionsOf, type Decisions } from './pieces.ts';
import { restsOn } from './rests-on.ts';
import { FIGURE_AT, runBytes, type MemberRun } from './run.ts';
import { aimForecasts, needsOf, outcomeOf, stepForecasts } from './summary.ts';
import { surprisesOf } from './surprises.ts';
import { DIMENSIONS, type Beliefs, type JointBeliefs } from './uncertain.ts';
import { newVat, type Vat } from './vat-state.ts';
import { observationsOf, type Observation } from './walk.ts';

/** Raised with every change of equations, constants or generator: an old forecast can be told from a new one. */
export const MODEL_VERSION = '1';

export interface SimulateInput {
  readonly plan: Plan;
  readonly history?: History;
  readonly beliefs?: Beliefs | JointBeliefs;
  /** Members of the ensemble, 20 to 4000; 500 where left out. */
  readonly members?: number;
  /** Any integer; 1 where left out. The same seed gives the same forecast. */
  readonly seed?: number;
  /** Integration step [min], for the step-size test only. */
  readonly stepMin?: number;
}

const MEMBERS = { least: 20, usual: 500, most: 4000 } as const;

/**
 * What will happen in this make, with honest bands.
 *
 * Many members, each with its own milk, culture, curd, pot and hands, are run from the first step to the last: past steps at
 * their noted times, coming ones until their end conditions; readings and judgements weigh them (`decisions/0008`).
 *
 * @param input.plan  from `planMake`
 * @param input.history  what has happened, in elapsed minutes; nothing where left out
 * @param input.beliefs  what this kitchen has learned; or what pots beside this one have told; a stranger's kitchen where left out
 * @returns bands over time, spreads of step ends, needs, aims, findings; reproducible from seed, members and model version
 * Uncertainty: it is the result. Floors of `bands.ts` hold whatever the readings say.
 */
export function simulate(input: SimulateInput): Forecast {
  return told(membersOf(input));
}

/** What members say together. */
export function told({ course, ground, ensemble, members, seed }: Members): Forecast {
  const runs = equalMembers({ results: ensemble.results, weights: ensemble.weights, count: members, seed });
  const { gridMin, bands } = traceBands(runs);
  const steps = stepForecasts(course, runs);
  const outcome = outcomeOf(course, runs);
  const needs = needsOf(course, runs);
  return {
    seed,
    members,
    modelVersion: MODEL_VERSION,
    nowMin: course.nowMin,
    ...(course.mayEndFromMin < course.nowMin ? { assumedFromMin: course.mayEndFromMin } : {}),
    gridMin,
    bands,
    steps,
    outcome,
    needs,
    aims: aimForecasts(course, runs),
    findings: findingsOf({ course, ground, runs, fromPrior: ensemble.fromPrior, outcome, needs }),
    effectiveMembers: ensemble.effectiveMembers,
    method: ensemble.method,
    restsOn: restsOn(course),
    invitation: invitationOf({ course, runs, steps }),
    surprises: surprisesOf(course, ensemble.fromPrior),
  };
}

/** The members behind a forecast, before anything is said about them. */
export interface Members {
  readonly course: Course;
  readonly ground: Ground;
  readonly ensemble: Ensemble<MemberRun>;
  readonly members: number;
  readonly seed: number;
}

/** Draws, runs and weighs the members of a forecast: what `simulate` tells of, and what its calibration ranks the truth among. */
export function membersOf(input: SimulateInput): Members {
  const { drawing, groundOnce, ...set } = setOut(input);
  return { ...set, ground: groundOnce(), ensemble: runEnsemble(drawing) };
}

/** Everything that the members of a forecast have in common, before any is run. */
export interface SetOut extends Omit<Members, 'ensemble' | 'ground'> {
  /** Worked out when first asked for, and no more than once. */
  readonly groundOnce: () => Ground;
  readonly drawing: EnsembleInput<MemberRun> & Required<Pick<EnsembleInput<MemberRun>, 'runAll'>>;
}

export function setOut(input: SimulateInput): SetOut {
  const course = courseOf({ plan: input.plan, history: input.history ?? NO_HISTORY });
  const members = Math.round(Math.min(Math.max(input.members ?? MEMBERS.usual, MEMBERS.least), MEMBERS.most));
  const seed = Math.trunc(input.seed ?? 1);
  // Neither before the first member is run: half of the members may then be on their way elsewhere (`parts.ts`).
  let ground: Ground | null = null;
  const groundOnce = (): Ground => (ground ??= groundOf(input.plan));
  let bench: Bench | null = null;
  const run = (row: Float64Array, into?: Room): MemberAnswer<MemberRun> =>
    answerOf((bench ??= benchOf(course, groundOnce(), input.stepMin)).run(row, into));
  const runAll = (rows: Float64Array): MemberAnswer<MemberRun>[] =>
    roomFor(course, rows).map((room, i) => run(rowAt(rows, i), room));
  const drawing = { members, seed, beliefs: input.beliefs ?? {}, run, runAll };
  return { course, groundOnce, members, seed, drawing };
}

/** Where a run is to lie: from a byte of a piece of memory on. */
export interface Room {
  readonly memory: ArrayBuffer;
  readonly from: number;
}

/** Room for the run of every row, one after the other in one piece of memory: hundreds of pieces are slower to come by. */
export function roomFor(course: Course, rows: Float64Array): Room[] {
  const bytes = runBytes(runSizes(course));
  const count = rows.length / DIMENSIONS;
  const memory = new ArrayBuffer(count * bytes);
  return Array.from({ length: count }, (_, i) => ({ memory, from: i * bytes }));
}

/** What a run says of itself, for weighing. */
export function answerOf(result: MemberRun): MemberAnswer<MemberRun> {
  const logLikelihood = result.logLikelihoods.reduce((sum, value) => sum + value, 0);
  return { result, logLikelihood, innovations: result.innovations };
}

export interface Bench {
  readonly decisions: Decisions;
  run(row: Float64Array, into?: Room): MemberRun;
}

/** One vat that all members use in turn, and the decisions of the plan, taken from the member in the middle. */
export function benchOf(course: Course, ground: Ground, stepMin?: number): Bench {
  const observations: readonly Observation[] = observationsOf(course);
  const middle = inputsOf(ground, new Float64Array(DIMENSIONS));
  const vat: Vat = newVat(middle);
  const step = stepMin === undefined ? {} : { stepMin };
  const aimed = course.plan.make.aims.find((aim) => aim.quantity === 'moisturePercent')?.aim ?? 50;
  const first = decisionsOf({ course, moisturePercent: aimed, fatPercent: 22 });
  const run = runMember({ course, inputs: middle, vat, observations, decisions: first, ...step });
  const moisturePercent = run.figures[FIGURE_AT.enteringMoisturePercent] ?? aimed;
  const fatInDryMatter = run.figures[FIGURE_AT.fatInDryMatterPercent] ?? 45;
  const leavesC = run.endTemperatureC[course.leavesAt - 1];
  const decisions = decisionsOf({
    course,
    ...(leavesC === undefined ? {} : { leavesC: Math.min(Math.max(leavesC, 1), 90) }),
    moisturePercent,
    fatPercent: (fatInDryMatter * (100 - moisturePercent)) / 100,
  });
  return {
    decisions,
    run: (row, into) =>
      runMember({
        course,
        inputs: inputsOf(ground, row),
        vat,
        observations,
        decisions,
        ...step,
        ...(into === undefined ? {} : { into }),
      }),
  };
}
