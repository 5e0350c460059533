import type { History } from '../make/history.ts';
import type { Plan, PlannedStep } from '../make/plan.ts';
import type { Condition, Verb } from '../make/step.ts';
import type { JudgementName } from '../make/judgement.ts';
import { asDone, type AsDone } from './as-done.ts';

/** How the pot's temperature is handled while a step lasts. */
export type Heating = 'heat-up' | 'hold' | 'still' | 'none';

/** What ends a step, as numbers the simulator can watch. Times are minutes from the step's start. */
export type Watch =
  | { readonly kind: 'time'; readonly minutes: number; readonly byHands: boolean }
  | { readonly kind: 'temperature'; readonly atC: number }
  | { readonly kind: 'cooled'; readonly atC: number }
  | { readonly kind: 'pH'; readonly sample: 'curd' | 'whey'; readonly at: number }
  | { readonly kind: 'judgement'; readonly judgement: JudgementName; readonly grade: string }
  | { readonly kind: 'flocculation'; readonly multiplier: number }
  | { readonly kind: 'coreTemperature'; readonly atC: number }
  | { readonly kind: 'salt'; readonly percent: number }
  | { readonly kind: 'days'; readonly days: number }
  | { readonly kind: 'moisture'; readonly percent: number }
  | { readonly kind: 'mass'; readonly kgPerL: number };

/** One step as the simulator walks it. */
export interface CourseStep extends AsDone {
  readonly index: number;
  readonly id: string;
  readonly verb: Verb;
  readonly plan: PlannedStep;
  readonly heating: Heating;
  readonly stirring: 'still' | 'gentle' | 'drained';
  readonly join: 'first' | 'all';
  readonly watches: readonly Watch[];
  /** Expected minutes written beside a judgement or pH; the planned length of the step. */
  readonly expectedMin: number | null;
  /** Longest the simulator waits for a judgement or pH before it calls the step not reached. */
  readonly longestMin: number;
  /** Real times, minutes since zero. */
  readonly startedMin: number | null;
  readonly endedMin: number | null;
  /** Where the plan has the pot, the curd or its bath stand [°C]; NaN where it does not say. */
  readonly atC: number;
  readonly bathC: number;
  /** Days that it lies somewhere [min], which no hands hurry; null where it does not. */
  readonly lyingMin: number | null;
  /** Start of the first later step that has one: this step was over by then, noted or not. */
  readonly nextStartedMin: number | null;
}

/** What every member's cheese goes through once it is out of the vat, looked up once. */
export interface AfterVat {
  readonly steps: readonly CourseStep[];
  /** What salts it: the bath, or the liquid that it is kept in. */
  readonly brineVerb: 'brine' | 'keepInLiquid';
  /** Places of the first step of each; -1 where there is none. */
  readonly brineAt: number;
  readonly coolAt: number;
  /** Salt that the plan rubs on after the vat is left [% of the cheese]. */
  readonly rubbedSaltPercent: number;
  /** An aim asks for the moisture at a step. */
  readonly asksMoisture: boolean;
  readonly isPieces: boolean;
  readonly isScooped: boolean;
}

/** A plan and what has happened of it, digested once for all members. */
export interface Course {
  readonly plan: Plan;
  readonly history: History;
  readonly steps: readonly CourseStep[];
  /** Place of the first step that is out of the vat's equations (`leavesVatAt`). */
  readonly leavesAt: number;
  readonly after: AfterVat;
  readonly nowMin: number;
  /** Nothing that is not noted ends before this: now, or where the silence began that the plan is taken to fill. */
  readonly mayEndFromMin: number;
}

const HEATING: Partial<Record<Verb, Heating>> = {
  warm: 'heat-up',
  cook: 'heat-up',
  heatWithAcid: 'heat-up',
  hold: 'hold',
  ripen: 'hold',
  stir: 'hold',
  restToAcid: 'hold',
  mat: 'hold',
};

/** Verbs that hands do: their minutes vary with the maker, not with the clock on the wall. */
export const HANDS_VERBS: ReadonlySet<Verb> = new Set([
  'add', 'cut', 'drawWhey', 'wash', 'drain', 'mill', 'drySalt', 'stretch', 'form', 'pack', 'scoop', 'store',
]); // prettier-ignore

/** Verbs after which the cheese is out of the vat: sizes and times come from closed forms, not from the vat's equations. */
export const AFTER_VAT: ReadonlySet<Verb> = new Set(['form', 'cool', 'brine', 'keepInLiquid', 'dry', 'age', 'pack', 'store']); // prettier-ignore

/** Of these, those that nothing of the vat's own comes after: what is formed may be pressed and rest, what is brined may not. */
const OUT_FOR_GOOD: ReadonlySet<Verb> = new Set(['brine', 'keepInLiquid', 'age', 'pack', 'store']);

/**
 * Place of the first step out of the vat's equations: curd in forms, under the press and resting overnight still sours and
 * drains by them. The number of steps where none is.
 */
export function leavesVatAt(steps: readonly { readonly verb: Verb }[]): number {
  const forGood = steps.findIndex((step) => OUT_FOR_GOOD.has(step.verb));
  let last = steps.length;
  while (last > 0 && AFTER_VAT.has(steps[last - 1]?.verb ?? 'warm')) last--;
  return forGood < 0 ? last : Math.min(forGood, last);
}

const DAY_MIN = 1440;
const LONGEST_WAIT_MIN = 360; // our own choice: a rest of six hours has failed and is shown as not reached

/** Digests a plan and its history. */
export function courseOf(input: { plan: Plan; history: History }): Course {
  const { plan, history } = input;
  const lastEnded = history.steps.reduce((last, step) => Math.max(last, step.endedMin ?? step.startedMin), 0);
  const nowMin = Math.max(history.nowMin, lastEnded);
  const begun = plan.steps.map((step) => begunStep(step, history));
  const measured = asDone({ steps: begun, history });
  const leavesAt = leavesVatAt(plan.steps);
  const steps = begun.map((step, index) =>
    courseStep({
      begun: step,
      index,
      hasMeter: plan.setup.pHMeter,
      measured: measured[index],
      isInVat: index < leavesAt,
      nextStartedMin: begun.slice(index + 1).find((later) => later.startedMin !== null)?.startedMin ?? null,
    }),
  );
  return {
    plan,
    history,
    leavesAt,
    steps,
    after: afterVat(plan, steps, leavesAt),
    nowMin,
    mayEndFromMin: Math.max(Math.min(history.assumedFromMin ?? nowMin, nowMin), lastEnded),
  };
}

function afterVat(plan: Plan, all: readonly CourseStep[], leavesAt: number): AfterVat {
  const steps = all.slice(leavesAt);
  const at = (verb: Verb): number => all.findIndex((step) => step.verb === verb);
  const brineVerb = at('brine') < 0 ? 'keepInLiquid' : 'brine';
  const rubbed = steps.flatMap(({ verb, plan: { set } }) => (verb === 'drySalt' ? [set.saltPercent] : []));
  return {
    steps,
    brineVerb,
    brineAt: at(brineVerb),
    coolAt: at('cool'),
    rubbedSaltPercent: rubbed.reduce<number>((sum, one) => sum + (typeof one === 'number' ? one : 0), 0),
    asksMoisture: plan.make.aims.some((aim) => aim.quantity === 'moisturePercent' && aim.moment !== 'finished'),
    isPieces: plan.steps.some((step) => step.set.pieceG !== undefined),
    isScooped: at('scoop') >= 0,
  };
}

/** A planned step with its noted times. */
type BegunStep = Pick<CourseStep, 'verb' | 'plan' | 'startedMin' | 'endedMin'>;

function begunStep(plan: PlannedStep, history: History): BegunStep {
  const noted = history.steps.filter((entry) => entry.stepId === plan.id).at(-1);
  return { verb: plan.verb, plan, startedMin: noted?.startedMin ?? null, endedMin: noted?.endedMin ?? null };
}

/** Written out in one piece, so that the steps are alike to the engine: every member walks through them all. */
function courseStep(of: {
  begun: BegunStep;
  index: number;
  hasMeter: boolean;
  measured: AsDone | undefined;
  isInVat: boolean;
  nextStartedMin: number | null;
}): CourseStep {
  const { plan: step, startedMin, endedMin } = of.begun;
  const expectation = step.until.of.find((condition) => condition.kind === 'time');
  const expectedMin = expectation?.kind === 'time' ? expectation.minutes.value : daysOf(step);
  const stirring = step.set.stirring;
  const watches = watchesOf(step, of.hasMeter, of.isInVat);
  return {
    index: of.index,
    id: step.id,
    verb: step.verb,
    plan: step,
    heating: HEATING[step.verb] ?? 'still',
    stirring:
      stirring === 'gentle' || stirring === 'drained' || stirring === 'still'
        ? stirring
        : step.verb === 'stir' || step.verb === 'cook'
          ? 'gentle'
          : step.verb === 'press'
            ? 'drained'
            : 'still',
    join: step.until.join,
    watches,
    expectedMin,
    longestMin: Math.max(LONGEST_WAIT_MIN, 2 * (expectedMin ?? 0)),
    startedMin,
    endedMin,
    atC: numberOr(step.set.atC),
    bathC: numberOr(step.set.bathC),
    lyingMin: watches.some(({ kind }) => kind === 'days') ? expectedMin : null,
    nextStartedMin: of.nextStartedMin,
    wheyOffL: of.measured?.wheyOffL ?? null,
    waterC: of.measured?.waterC ?? null,
  };
}

const numberOr = (value: unknown): number => (typeof value === 'number' ? value : Number.NaN);

function daysOf(step: PlannedStep): number | null {
  const lying = step.until.of.find((condition) => condition.kind === 'days');
  return lying?.kind === 'days' ? DAY_MIN * lying.days.value : null;
}

/** In the vat a pot or its curd is cooled, and waited for from above. */
const isCooling = (verb: Verb, isInVat: boolean): boolean => isInVat && (verb === 'cool' || verb === 'chillCurd');

/**
 * The conditions that really decide. A time beside a judgement, a pH or a flocculation is the expectation, not the end
 * (make language, "until"); a pH is watched only by those who have a meter, unless nothing else could end the step.
 */
function watchesOf(step: PlannedStep, hasMeter: boolean, isInVat: boolean): Watch[] {
  const seen = step.until.of.filter((condition) => condition.kind !== 'time' && (hasMeter || condition.kind !== 'pH'));
  const timed = step.until.of.filter((condition) => condition.kind === 'time');
  // What hands do ends when hands have done it, whatever the thermometer says meanwhile.
  const deciding = seen.length > 0 && !(HANDS_VERBS.has(step.verb) && timed.length > 0) ? seen : timed;
  return (deciding.length > 0 ? deciding : step.until.of).map((condition) => watchOf(condition, step.verb, isInVat));
}

function watchOf(condition: Condition, verb: Verb, isInVat: boolean): Watch {
  switch (condition.kind) {
    case 'time':
      return { kind: 'time', minutes: condition.minutes.value, byHands: HANDS_VERBS.has(verb) };
    case 'temperature':
      return { kind: isCooling(verb, isInVat) ? 'cooled' : 'temperature', atC: condition.atC.value };
    case 'pH':
      return { kind: 'pH', sample: condition.sample === 'whey' ? 'whey' : 'curd', at: condition.at.value };
    case 'judgement':
      return { kind: 'judgement', judgement: condition.judgement, grade: condition.grade };
    case 'flocculation':
      return { kind: 'flocculation', multiplier: condition.multiplier.value };
    case 'coreTemperature':
      return { kind: isCooling(verb, isInVat) ? 'cooled' : 'coreTemperature', atC: condition.atC.value };
    case 'salt':
      return { kind: 'salt', percent: condition.percent.value };
    case 'days':
      return { kind: 'days', days: condition.days.value };
    case 'moisture':
      return { kind: 'moisture', percent: condition.percent.value };
    case 'mass':
      return { kind: 'mass', kgPerL: condition.kgPerL.value };
  }
}
