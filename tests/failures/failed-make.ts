import { suppose, baseVariant, MOST_SIZES } from '../../src/forecast/causes-applied.ts';
import { causesFor, type Cause } from '../../src/forecast/causes.ts';
import { AFTER_VAT, courseOf } from '../../src/forecast/course.ts';
import { usualDecisions, usualMinutes } from '../../src/forecast/explain-run.ts';
import { lastedLnSd, patienceMin } from '../../src/forecast/explain-clues-made.ts';
import { faultIn, faultsOf, MENTION, type FaultsSaid } from '../../src/forecast/explain-faults.ts';
import { seen, wantedMin, type Seen } from '../../src/forecast/explain-seen.ts';
import { runMember } from '../../src/forecast/member.ts';
import { DIMENSIONS } from '../../src/forecast/uncertain.ts';
import { newVat } from '../../src/forecast/vat-state.ts';
import { NO_HISTORY, type History } from '../../src/make/history.ts';
import type { Plan } from '../../src/make/plan.ts';
import { erfc } from '../../src/numbers/special.ts';
import { seededRandom, type Random } from '../../src/numbers/random.ts';
import { notesOf } from './usual-notes.ts';

/** A make that went wrong, as its record shows it. */
export interface FailedMake {
  readonly cause: Cause | null;
  readonly history: History;
  readonly faults: FaultsSaid | null;
}

/** A maker who gave up waiting for the gel or the stretch stops there so often. Our own choice. */
const STOPS_THERE = 0.5;
const SAYS_HOW_IT_CAME_OUT = 0.9; // of makes that are asked about; our own choice
const CLEARLY = 0.5; // seven makers in ten would say so
const LATE_MIN = 60; // so much later than without the cause is a failure too; our own choice

/** One make as it really went, before anybody noted anything. */
interface Made {
  readonly truth: Seen;
  readonly history: History;
  readonly stopped: boolean;
}

/**
 * Makes one member's make with a cause at work, step by step as a maker would: each step lasts as long as milk and clock want,
 * give or take, or as the cause has it; what never comes is given up.
 */
function made(input: { plan: Plan; cause: Cause | null; seed: number; usualMin: readonly number[] }): Made {
  const { plan, cause, usualMin } = input;
  const random = seededRandom(input.seed);
  const row = Float64Array.from({ length: DIMENSIONS }, () => random.normal());
  const sizes = Float64Array.from({ length: MOST_SIZES }, () => random.normal());
  const settingSize = random.normal();
  const patienceZ = random.normal();
  const chance = plan.steps.map(() => ({ hands: random.normal(), stops: random.uniform() < STOPS_THERE }));
  const base = baseVariant({ plan, history: NO_HISTORY, decisions: usualDecisions });
  const member = suppose({ plan, history: NO_HISTORY, cause, base, settingSize }).member({ index: 0, row, sizes });
  const vat = newVat(member.inputs);
  const look = (history: History): Seen => {
    const course = courseOf({ plan: member.variant.course.plan, history });
    const supposed = { ...member, variant: { ...member.variant, course } };
    const { decisions } = member.variant;
    const run = runMember({ course, inputs: member.inputs, vat, observations: [], decisions });
    return seen({ supposed, run, vat, patienceZ });
  };
  const steps: { stepId: string; startedMin: number; endedMin?: number }[] = [];
  let now = 0;
  let stopped = false;
  for (const [index, { id }] of plan.steps.entries()) {
    if (stopped) break;
    const sofar = look({ ...NO_HISTORY, nowMin: now, steps: [...steps, { stepId: id, startedMin: now }] });
    const step = sofar.supposed.variant.course.steps[index];
    if (step === undefined) break;
    const isJudged = step.watches.some(({ kind }) => kind === 'judgement' || kind === 'pH');
    const wanted = wantedMin(sofar, step);
    const natural = Number.isNaN(wanted) ? (sofar.run.leftMin[index] ?? now) - now : wanted;
    const patience = isJudged ? patienceMin(usualMin[index] ?? 60, patienceZ) : Number.POSITIVE_INFINITY;
    const lasted = Math.min(natural, patience) * Math.exp(sofar.supposed.lastsLn[index] ?? 0);
    const sd = AFTER_VAT.has(step.verb) || step.verb === 'warm' ? 0.1 : lastedLnSd(step, usualMin[index] ?? natural);
    const endedMin = now + Math.max(1, lasted * Math.exp(sd * (chance[index]?.hands ?? 0)));
    stopped = natural > patience && chance[index]?.stops === true;
    steps.push(stopped ? { stepId: id, startedMin: now } : { stepId: id, startedMin: now, endedMin });
    now = endedMin;
  }
  const history = { ...NO_HISTORY, nowMin: now, steps };
  return { truth: look(history), history, stopped };
}

/** True where the cause made the make fail: with it a clear fault, a stop or an hour's delay; without it, in the same milk and hands, none. */
function failedBy(plan: Plan, withIt: Made, without: Made): boolean {
  const clear = ({ truth }: Made): boolean => faultsOf(plan).some((fault) => faultIn(truth, fault) > CLEARLY);
  if (without.stopped || clear(without)) return false;
  return withIt.stopped || clear(withIt) || withIt.history.nowMin > without.history.nowMin + LATE_MIN;
}

/**
 * A make that failed because of one cause, drawn by how often each happens or each alike, with the notes of a usual maker.
 * Makes are drawn until one fails, and would not have failed without its cause.
 */
export function failedMake(input: {
  plan: Plan;
  seed: number;
  causeOf: (random: Random) => Cause;
}): FailedMake & { tries: number } {
  const { plan } = input;
  const random = seededRandom(input.seed);
  const usualMin = usualMinutes(plan);
  for (let tries = 1; ; tries++) {
    const cause = input.causeOf(random);
    const seed = random.nextUint32();
    const withIt = made({ plan, cause, seed, usualMin });
    if (tries < 400 && !failedBy(plan, withIt, made({ plan, cause: null, seed, usualMin }))) continue;
    return { cause, tries, ...recorded({ plan, made: withIt, cause, random }) };
  }
}

/** An ordinary make, with the same notes. */
export function ordinaryMake(input: { plan: Plan; seed: number }): FailedMake {
  const random = seededRandom(input.seed);
  const usualMin = usualMinutes(input.plan);
  const one = made({ plan: input.plan, cause: null, seed: random.nextUint32(), usualMin });
  return { cause: null, ...recorded({ plan: input.plan, made: one, cause: null, random }) };
}

function recorded(input: { plan: Plan; made: Made; cause: Cause | null; random: Random }): Omit<FailedMake, 'cause'> {
  const { plan, made, cause, random } = input;
  const { truth, history, stopped } = made;
  const notes = notesOf({ plan, truth, nowMin: history.nowMin, random });
  const additions = history.steps.flatMap(({ stepId, endedMin }) => {
    const ingredient = plan.steps.find((step) => step.id === stepId)?.set.ingredient;
    if (typeof ingredient !== 'string' || endedMin === undefined) return [];
    if (random.uniform() > (ingredient === cause?.forgets ? 0.2 : 0.85)) return [];
    return [{ ingredient: ingredient as 'culture', fractionOfPlan: 1, elapsedMin: endedMin }];
  });
  const says = stopped || random.uniform() < SAYS_HOW_IT_CAME_OUT;
  return { history: { ...history, ...notes, additions }, faults: says ? faultsSaid(plan, truth, random) : null };
}

function faultsSaid(plan: Plan, truth: Seen, random: Random): FaultsSaid {
  return faultsOf(plan).flatMap((fault) => {
    const clear = faultIn(truth, fault);
    if (!Number.isFinite(clear)) return [];
    const chance = MENTION.false + (MENTION.clear - MENTION.false) * 0.5 * erfc(-clear / Math.SQRT2);
    return random.uniform() < chance ? [{ fault, isThere: true }] : [];
  });
}

/** A cause drawn by how often each happens, or each alike. */
export function drawCause(input: { plan: Plan; alike: boolean }): (random: Random) => Cause {
  const causes = causesFor({ plan: input.plan, history: NO_HISTORY });
  const total = causes.reduce((sum, { rate }) => sum + (input.alike ? 1 : rate), 0);
  return (random) => {
    let left = random.uniform() * total;
    for (const cause of causes) {
      left -= input.alike ? 1 : cause.rate;
      if (left <= 0) return cause;
    }
    return causes[causes.length - 1] as Cause;
  };
}
