import type { History } from '../make/history.ts';
import { JUDGEMENT_GRADES } from '../make/judgement.ts';
import type { Verb } from '../make/step.ts';
import { JUDGEMENTS } from '../science/judgements.ts';
import { NOTED_OTHER_LN } from './causes-applied.ts';
import { CAUSES } from './causes.ts';
import type { Course, CourseStep } from './course.ts';
import { SLIP, SPAN, type Clue } from './explain-clue.ts';
import { faultIn, faultsOf, MENTION, type FaultsSaid } from './explain-faults.ts';
import { judgedStateAt, wantedMin, type Seen } from './explain-seen.ts';

const JUDGEMENT_SLIP = 0.03; // as in `science/judgements.ts`
/** A handful squeezed in the vat says less of the model's moisture there than the judgement's own width has it: our own choice. */
const GRIP_MODEL_SD = 8;

export function judgementClue(judged: History['judgements'][number]): Clue[] {
  const { judgement, grade, elapsedMin } = judged;
  const grades: readonly string[] = JUDGEMENT_GRADES[judgement];
  const index = grades.indexOf(grade);
  if (index < 0) return [];
  const { thresholds, falls } = JUDGEMENTS[judgement];
  const sd = Math.hypot(JUDGEMENTS[judgement].sd, judgement === 'grip' ? GRIP_MODEL_SD : 0);
  const earlier = thresholds[index - 1] ?? (falls ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY);
  const later = thresholds[index] ?? (falls ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY);
  return [
    {
      about: { kind: 'judgement', judgement, grade, elapsedMin },
      shown: 'plain',
      expect: (member) => judgedStateAt(member, judgement, elapsedMin),
      likelihood: {
        kind: 'between',
        low: Math.min(earlier, later),
        high: Math.max(earlier, later),
        sd,
        floor: JUDGEMENT_SLIP / grades.length,
        share: 1 - JUDGEMENT_SLIP,
      },
    },
  ];
}

/** Steps that some cause makes longer or shorter. */
const TELLING: ReadonlySet<Verb> = new Set(CAUSES.flatMap(({ lasts }) => (lasts ?? []).map(({ verb }) => verb)));
/** A wait by the clock, and one by judgement that is looked at every few minutes: relative error, and minutes. Our own choice. */
const CLOCKED = { ln: 0.1, minutes: 2 } as const;
const JUDGED = { ln: 0.12, minutes: 5 } as const;
/** Whoever waits for what does not come goes on after this many times the usual: our own choice, with its spread. */
const PATIENCE = { times: 2.2, lnSd: 0.25 } as const;

/** Standard deviation of the logarithm of a step's length about what it wanted. */
export function lastedLnSd(step: CourseStep, usualMin: number): number {
  const { ln, minutes } = isJudged(step) ? JUDGED : CLOCKED;
  return Math.hypot(ln, minutes / Math.max(usualMin, 1));
}

const isJudged = (step: CourseStep): boolean => step.watches.some(({ kind }) => kind === 'judgement' || kind === 'pH');

/** Minutes that a member's maker let a step last. */
export function lastsMin(member: Seen, step: CourseStep, usualMin: number): number {
  const wanted = wantedMin(member, step);
  const waited = isJudged(step) ? Math.min(wanted, patienceMin(usualMin, member.patienceZ)) : wanted;
  return waited * Math.exp(member.supposed.lastsLn[step.index] ?? 0);
}

/** How long this maker waits for what does not come [min]. */
export const patienceMin = (usualMin: number, z: number): number =>
  PATIENCE.times * usualMin * Math.exp(PATIENCE.lnSd * z);

export function lastedClue(input: { step: CourseStep; usualMin: readonly number[]; course: Course }): Clue[] {
  const { step, course } = input;
  const usualMin = input.usualMin[step.index] ?? Number.NaN;
  if (!TELLING.has(step.verb) || step.startedMin === null || !Number.isFinite(usualMin)) return [];
  const next = course.steps.slice(step.index + 1).find((later) => later.startedMin !== null);
  const endMin = step.endedMin ?? next?.startedMin ?? null;
  const minutes = (endMin ?? course.nowMin) - step.startedMin;
  if (minutes < 1) return [];
  const sd = lastedLnSd(step, usualMin) * minutes;
  return [
    {
      about: { kind: 'lasted', stepId: step.id, minutes, isOver: endMin !== null, elapsedMin: endMin ?? course.nowMin },
      shown: 'plain',
      likelihood:
        endMin === null
          ? { kind: 'between', low: minutes, high: Number.POSITIVE_INFINITY, sd, floor: SLIP, share: 1 - SLIP }
          : { kind: 'value', value: minutes, sd, slip: SLIP, span: LASTED_SPAN * minutes },
      expect: (member) => lastsMin(member, member.supposed.variant.course.steps[step.index] ?? step, usualMin),
    },
  ];
}

/** A slip in a step's length lands anywhere within so many times of it: our own choice. */
const LASTED_SPAN = 4;

const DOSE_LN_SD = 0.15; // as measured out: our own choice
/** An ingredient that went in is noted this often; one that was forgotten is ticked off all the same this often. Our own choice. */
const NOTED = { given: 0.85, forgotten: 0.2 } as const;
const FORGOTTEN_LN = -2; // less than a seventh of the dose is none

/** What was measured out: noted as another amount, or noted at all where some cause is that it was forgotten. */
export function doseClues(course: Course): Clue[] {
  const { additions } = course.history;
  const other = additions
    .filter(({ fractionOfPlan }) => Math.abs(Math.log(Math.max(fractionOfPlan, 0.01))) > NOTED_OTHER_LN)
    .map(({ ingredient, fractionOfPlan, elapsedMin }): Clue => ({
      about: { kind: 'dose', ingredient, fractionOfPlan, elapsedMin },
      shown: 'exponential',
      likelihood: { kind: 'value', value: Math.log(Math.max(fractionOfPlan, 0.01)), sd: DOSE_LN_SD, slip: SLIP, span: SPAN.ln },
      expect: (member) => member.supposed.doseLn(ingredient),
    })); // prettier-ignore
  const added = course.steps.filter((step) => step.verb === 'add' && step.endedMin !== null);
  const noted = added.flatMap((step): Clue[] => {
    const { ingredient } = step.plan.set;
    const isForgettable = CAUSES.some(({ forgets }) => forgets === ingredient);
    if (typeof ingredient !== 'string' || !isForgettable || additions.length === 0) return [];
    const isNoted = additions.some((addition) => addition.ingredient === ingredient);
    const bounds = isNoted
      ? { low: 0, high: Number.POSITIVE_INFINITY, floor: NOTED.forgotten }
      : { low: Number.NEGATIVE_INFINITY, high: 0, floor: 1 - NOTED.given };
    return [
      {
        about: { kind: 'noted', ingredient, isNoted, elapsedMin: step.endedMin ?? 0 },
        shown: 'plain',
        expect: (member) => (member.supposed.doseLn(ingredient) < FORGOTTEN_LN ? -1 : 1),
        likelihood: { kind: 'between', ...bounds, sd: 0.1, share: NOTED.given - NOTED.forgotten },
      },
    ];
  });
  return [...other, ...noted];
}

export function faultClues(course: Course, said: FaultsSaid): Clue[] {
  return faultsOf(course.plan).map((fault) => {
    const isThere = said.find((one) => one.fault === fault)?.isThere ?? false;
    const share = MENTION.clear - MENTION.false;
    return {
      about: { kind: 'fault', fault, isThere },
      shown: 'plain',
      expect: (member) => faultIn(member, fault),
      likelihood: isThere
        ? { kind: 'between', low: 0, high: Number.POSITIVE_INFINITY, sd: 1, floor: MENTION.false, share }
        : { kind: 'between', low: Number.NEGATIVE_INFINITY, high: 0, sd: 1, floor: 1 - MENTION.clear, share },
    };
  });
}
