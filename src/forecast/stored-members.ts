import { effectiveSampleSize } from '../numbers/stats.ts';
import { NO_HISTORY, type History } from '../make/history.ts';
import { courseOf, type Course } from './course.ts';
import { rowAt, rowsFrom } from './draw.ts';
import type { Forecast } from './forecast.ts';
import { inputsOf } from './inputs.ts';
import { newNotes, type NewNotes } from './new-notes.ts';
import { observeJudgement, observeReading } from './observe.ts';
import { priorOf } from './proposal.ts';
import { emptyNotes, type MemberRun } from './run.ts';
import { benchOf, membersOf, told, type Members, type SimulateInput } from './simulate.ts';
import { phaseAt, standAt } from './stand-at.ts';
import { DIMENSIONS } from './uncertain.ts';
import { newVat, type Vat } from './vat-state.ts';

/**
 * The members of a forecast kept beside it, so that one more reading or judgement weighs them where they stand instead of
 * running every make again. What moves a member's vat (a pH of drained curd, a temperature, a weight, a step begun or ended)
 * is not weighed so: then the makes are run again. So are those few whose running step would have ended before now.
 */
export interface Stored extends Members {
  readonly input: SimulateInput;
}

/** Effective members enough to go on with those that are kept: half of a usual forecast's, or a third of a small one's. Our own choice. */
const ENOUGH = { members: 250, share: 0.35 } as const;
/** New members where too few were left: twice a usual forecast's. Our own choice. */
const RENEWED = 1000;

/** Runs the members of a forecast and keeps them. */
export const storeMembers = (input: SimulateInput): Stored => ({ ...membersOf(input), input });

/** What stored members say together. */
export const forecastOf = (stored: Stored): Forecast => told(stored);

/**
 * Takes in what was noted since: weighs the stored members by it, and draws and runs new ones where that cannot be done or
 * leaves too few.
 *
 * @param history  what has happened by now, the stored history's notes among it
 * @returns members for the new history; the same as those of `simulate` within their sampling error
 */
export function withNotes(stored: Stored, history: History): Stored {
  const weighed = weighedBy(stored, history);
  return weighed !== null && hasEnough(weighed) ? weighed : renewed(stored, history);
}

/** True while the members that are kept still say enough between them. */
export const hasEnough = ({ ensemble, members }: Stored): boolean =>
  ensemble.effectiveMembers >= Math.min(ENOUGH.members, ENOUGH.share * members);

/** New members for a history, drawn where all its notes point. */
export const renewed = (stored: Stored, history: History): Stored =>
  storeMembers({ ...stored.input, history, members: Math.min(stored.members, RENEWED) });

/** The stored members weighed by what was noted since; null where it moved their vats. */
export function weighedBy(stored: Stored, history: History): Stored | null {
  const before = stored.input.history ?? NO_HISTORY;
  const notes = newNotes({ before, now: history });
  if (notes === null) return null;
  const course = courseOf({ plan: stored.input.plan, history });
  const { ensemble, members, seed, ground } = stored;
  const bench = benchOf(course, ground, stored.input.stepMin);
  const vat = newVat(inputsOf(ground, new Float64Array(DIMENSIONS)));
  const known = new Map<MemberRun, MemberRun>();
  const followed = (run: MemberRun, row: Float64Array): MemberRun => {
    const there = known.get(run) ?? weighs({ vat, course, notes, run, row, stored }) ?? bench.run(row);
    known.set(run, there);
    return there;
  };
  const results = ensemble.results.map((run, i) => followed(run, rowAt(ensemble.rows, i)));
  const gains = results.map((run, i) => total(run) - total(ensemble.results[i] ?? run));
  const most = gains.reduce((highest, gain) => Math.max(highest, gain), Number.NEGATIVE_INFINITY);
  const weights = ensemble.weights.map((weight, i) => weight * Math.exp((gains[i] ?? 0) - most));
  const isKnown = ensemble.fromPrior.every((run) => known.has(run));
  const prior = isKnown ? ensemble.rows : priorRows(stored);
  return {
    course,
    ground,
    members,
    seed,
    input: { ...stored.input, history },
    ensemble: {
      ...ensemble,
      results,
      weights,
      effectiveMembers:
        (effectiveSampleSize(weights) * ensemble.effectiveMembers) / effectiveSampleSize(ensemble.weights),
      fromPrior: ensemble.fromPrior.map((run, i) => followed(run, rowAt(prior, i))),
      method: ensemble.method === 'prior' ? 'weighed' : ensemble.method,
    },
  };
}

/** The rows that the prior's own members were drawn as. */
function priorRows({ members, seed, input }: Stored): Float64Array {
  return rowsFrom({ members, seed, from: priorOf(input.beliefs ?? {}) });
}

const total = (run: MemberRun): number => run.logLikelihoods.reduce((sum, value) => sum + value, 0);

/** One stored make with its new notes weighed; null where it must be run again. */
function weighs(of: {
  vat: Vat;
  course: Course;
  notes: NewNotes;
  run: MemberRun;
  row: Float64Array;
  stored: Stored;
}): MemberRun | null {
  const { vat, course, notes, run, stored } = of;
  const running = course.steps.find((step) => step.startedMin !== null && step.endedMin === null);
  if (running !== undefined && !((run.leftMin[running.index] ?? 0) > course.nowMin)) return null;
  const { readings, judgements } = course.history;
  const noted: MemberRun = { ...run, ...emptyNotes({ readings: readings.length, judgements: judgements.length }) };
  const inputs = inputsOf(stored.ground, of.row);
  for (let i = 0; i < readings.length; i++) {
    const reading = readings[i];
    const was = notes.readings[i] ?? -1;
    if (was >= 0) {
      noted.expected[i] = run.expected[was] ?? Number.NaN;
      noted.expectedSd[i] = run.expectedSd[was] ?? Number.NaN;
      copyNote(run, was, noted, i);
    } else if (reading !== undefined) {
      if (reading.quantity === 'pH' && phaseAt(course, run, reading.elapsedMin) === 'drained') return null;
      standAt(vat, { course, inputs, run, elapsedMin: reading.elapsedMin });
      observeReading({ vat, run: noted, course, index: i, reading });
    }
  }
  const wereReadings = (stored.input.history ?? NO_HISTORY).readings.length;
  for (let j = 0; j < judgements.length; j++) {
    const judged = judgements[j];
    const was = notes.judgements[j] ?? -1;
    const at = readings.length + j;
    if (was >= 0) copyNote(run, wereReadings + was, noted, at);
    else if (judged !== undefined) {
      standAt(vat, { course, inputs, run, elapsedMin: judged.elapsedMin });
      observeJudgement(vat, noted, at, judged);
    }
  }
  return noted;
}

function copyNote(from: MemberRun, was: number, to: MemberRun, at: number): void {
  to.innovations[at] = from.innovations[was] ?? Number.NaN;
  to.logLikelihoods[at] = from.logLikelihoods[was] ?? 0;
}
