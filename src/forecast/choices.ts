import { adjustablesOf, type Adjustable } from '../make/adjustable.ts';
import type { Adopted } from '../make/adopt.ts';
import type { Departure } from '../make/departure.ts';
import type { History } from '../make/history.ts';
import type { Make } from '../make/make.ts';
import { takesOverAt } from '../make/other-cheese.ts';
import type { Plan, PlannedStep } from '../make/plan.ts';
import type { Answers } from '../make/setup.ts';
import { stillOpen } from '../make/under-way.ts';
import { leavesVatAt } from './course.ts';
import type { Forecast } from './forecast.ts';

/** What kind of thing is done; the words are `advice:choice.<kind>`. */
export type ChoiceKind =
  | 'goOn' | 'set' | 'wait' | 'now' | 'test' | 'chill' | 'otherMake' | 'bring' | 'cover' | 'add' | 'away' | 'meter'; // prettier-ignore

/** Something that can be done from here: what it is called, what it changes, and what it costs besides. */
export interface Candidate {
  readonly id: string;
  readonly kind: ChoiceKind;
  /** What its words name: minutes, temperatures, a make. Each number has its unit in its name. */
  readonly fields: Readonly<Record<string, number | string>>;
  readonly choice: Adopted;
  /** Codes of `advice:risk.…`. */
  readonly risks: readonly string[];
  readonly source: string;
  /** Where it is a remedy of what was told: its name there (`vat:mishap.<mishap>.<says>`). */
  readonly says?: string;
}

/** Where a make stands, as far as choices depend on it. */
export interface Situation {
  readonly plan: Plan;
  readonly answers: Answers;
  readonly history: History;
  readonly forecast: Forecast;
  readonly nowMin: number;
  /** The step that runs; null between two. */
  readonly running: { readonly step: PlannedStep; readonly startedMin: number } | null;
  /** The last step that has begun; null before the first. */
  readonly last: PlannedStep | null;
  readonly phase: 'milk' | 'curd-in-whey' | 'drained' | 'after';
  /** Minutes from now to tomorrow's start. */
  readonly untilTomorrowMin: number;
}

const PRACTICE = 'common practice (no source)';

/** Reads off where the make stands. */
export function situationOf(
  input: Pick<Situation, 'plan' | 'answers' | 'history' | 'forecast' | 'untilTomorrowMin'>,
): Situation {
  const { plan, history } = input;
  const begun = plan.steps.filter((step) => history.steps.some((noted) => noted.stepId === step.id));
  const last = begun.at(-1) ?? null;
  const noted = history.steps.filter((one) => one.stepId === last?.id).at(-1);
  const running = last === null || noted === undefined || noted.endedMin !== undefined ? null : { step: last, startedMin: noted.startedMin }; // prettier-ignore
  const phase = phaseOf(plan, history);
  return { ...input, nowMin: input.forecast.nowMin, running, last, phase };
}

/** What is in the vat by the steps that have begun; one that a later step has passed is over, noted or not. */
export function phaseOf({ steps }: Plan, history: History): Situation['phase'] {
  const noted = new Map(history.steps.map((step) => [step.stepId, step]));
  const last = Math.max(...steps.map((step, index) => (noted.has(step.id) ? index : -1)));
  const hasBegun = (verb: PlannedStep['verb']): boolean =>
    steps.some((step) => step.verb === verb && noted.has(step.id));
  if (hasBegun('stretch') || hasBegun('form') || hasBegun('press')) return 'after';
  const drain = steps.findIndex((step) => step.verb === 'drain');
  const isDrained = drain !== -1 && (last > drain || noted.get(steps[drain]?.id ?? '')?.endedMin !== undefined);
  return isDrained ? 'drained' : hasBegun('cut') ? 'curd-in-whey' : 'milk';
}

/** Everything that can be done from here by the make's own data and the step that runs; none of it weighed yet. */
export function candidatesOf(situation: Situation, others: readonly Make[]): Candidate[] {
  if (situation.last === null) return [];
  return [
    ...settings(situation),
    ...waits(situation),
    ...tests(situation),
    ...otherCheeses(situation, others),
    ...chills(situation),
  ];
}

/** One notch either way: what a maker would call a little more or a little less. Our own choice. */
const NOTCH: Readonly<Partial<Record<Adjustable['unit'], number>>> = {
  '°C': 1, min: 10, mm: 3, 'of the vat': 0.1, 'of the whey': 0.1, '%': 2, pH: 0.1, times: 0.5,
}; // prettier-ignore
/** Nearest in the work: what lies further ahead can still be chosen then. Our own choice. */
const MOST_SETTINGS = 5;

/** Each figure that the make leaves free and that is still open, one notch up and one down, inside its range. */
function settings(situation: Situation): Candidate[] {
  return openFigures(situation)
    .slice(0, MOST_SETTINGS)
    .flatMap((one) => [notched(situation, one, 1), notched(situation, one, -1)])
    .filter((one) => one !== null);
}

/** Figures of the make that may still be set otherwise; while the curd is in the vat, those of the vat. */
export function openFigures(situation: Situation): Adjustable[] {
  const { plan, history, nowMin, phase } = situation;
  const open = stillOpen({ plan, adjustables: adjustablesOf(plan), history: { ...history, nowMin } });
  const leaves = leavesVatAt(plan.steps);
  const isOfVat = ({ stepId }: Adjustable): boolean => plan.steps.findIndex((step) => step.id === stepId) < leaves;
  return open.filter((one) => one.path === null && one.now !== null && (phase === 'after') !== isOfVat(one));
}

/** A free figure one notch up or down; null where its range ends first. */
export function notched(situation: Situation, free: Adjustable, sign: 1 | -1): Candidate | null {
  const notch = NOTCH[free.unit];
  if (notch === undefined || free.now === null) return null;
  const value = Math.round(Math.min(Math.max(free.now + sign * notch, free.low), free.high) / free.step) * free.step;
  if (Math.sign(value - free.now) !== sign) return null;
  const rounded = Number(value.toFixed(3));
  const source = situation.plan.make.free?.find((one) => one.id === free.id)?.source;
  return {
    id: `${free.id}${sign > 0 ? '+' : '-'}`,
    kind: 'set',
    fields: { what: free.name ?? free.id, was: free.now, to: rounded, unit: free.unit },
    choice: { changes: { [free.id]: rounded } },
    risks: [],
    source: typeof source === 'number' ? (situation.plan.make.sources[source] ?? PRACTICE) : PRACTICE,
  };
}

const WAIT_MIN = 15; // our own choice: the time between two test pieces
const LONGEST_WAIT_MIN = 180; // our own choice: nobody plans further than this while something waits
/** Steps that wait by themselves: nobody's hands are in the vat. */
const WAITING = new Set(['ripen', 'set', 'heal', 'settle', 'restToAcid', 'mat']);

/** Waiting longer than the make would, and ending a rest here and now. */
function waits(situation: Situation): Candidate[] {
  const { running, forecast, nowMin } = situation;
  if (running === null || !WAITING.has(running.step.verb)) return [];
  const endMin = forecast.steps.find((step) => step.stepId === running.step.id)?.endMin.p50 ?? Number.NaN;
  const isRest = running.step.verb === 'restToAcid';
  const now = isRest ? [lasting(situation, { id: 'now', kind: 'now', untilMin: nowMin, risks: ['tooEarly'] })] : [];
  if (!Number.isFinite(endMin) || endMin - nowMin > LONGEST_WAIT_MIN) return now;
  const untilMin = 5 * Math.ceil((Math.max(endMin, nowMin) + WAIT_MIN) / 5);
  return [...now, lasting(situation, { id: 'wait', kind: 'wait', untilMin, risks: isRest ? ['tooFar'] : [] })];
}

/** The running step ends at a minute of the make, whatever was to end it. */
export function lasting(
  situation: Situation,
  wait: {
    readonly id: string;
    readonly kind: 'wait' | 'now';
    readonly untilMin: number;
    readonly risks: readonly string[];
  },
): Candidate {
  const { running, nowMin } = situation;
  const stepId = running?.step.id ?? '';
  const minutes = Math.max(wait.untilMin - (running?.startedMin ?? nowMin), 0);
  return {
    id: wait.id,
    kind: wait.kind,
    fields: { step: running?.step.name ?? '', done: running?.step.done ?? '', minutes: wait.untilMin - nowMin, untilMin: wait.untilMin }, // prettier-ignore
    choice: { departures: [{ kind: 'minutes', stepId, minutes }] },
    risks: wait.risks,
    source: PRACTICE,
  };
}

const WORTH_TESTING = 0.1; // before one make in ten is ready a test tells nothing new; our own choice

/** A test piece now, where one could already pass; its chance is counted among the foreseen ends. */
function tests({ running, forecast, nowMin }: Situation): Candidate[] {
  const judged = running?.step.until.of.find((condition) => condition.kind === 'judgement');
  if (running === null || judged?.kind !== 'judgement') return [];
  const dots = forecast.steps.find((step) => step.stepId === running.step.id)?.endDots ?? [];
  const passes = dots.filter((minute) => minute <= nowMin + SOON_MIN).length / Math.max(dots.length, 1);
  if (passes < WORTH_TESTING) return [];
  return [{ id: 'test', kind: 'test', fields: { judgement: judged.judgement, passes, done: running.step.done }, choice: {}, risks: [], source: PRACTICE }]; // prettier-ignore
}

const SOON_MIN = 3; // a judgement is noted a few minutes off its moment: our own choice

/** Other makes that could take over here: the same way so far, and still to be reached. */
function otherCheeses(situation: Situation, others: readonly Make[]): Candidate[] {
  const { plan, last } = situation;
  if (last === null || situation.phase === 'after') return [];
  return others
    .filter((to) => to.id !== plan.make.id && takesOverAt({ from: plan.make, to, afterStepId: last.id }) !== null)
    .map((to) => ({
      id: `otherMake.${to.id}`,
      kind: 'otherMake' as const,
      fields: { make: to.name, makeId: to.id },
      choice: { departures: [{ kind: 'otherMake' as const, make: to, afterStepId: last.id }] },
      risks: ['madeForAnother'],
      source: PRACTICE,
    }));
}

const FRIDGE_C = 4; // common practice (no source): 5 °C or colder

/** The drained curd into the fridge, the stretch tomorrow; where the whey is still on, once it is off. */
export function chills(situation: Situation): Candidate[] {
  const { plan, running, last, phase, nowMin } = situation;
  const stretch = plan.steps.findIndex((step) => step.verb === 'stretch');
  const drain = plan.steps.findIndex((step) => step.verb === 'drain');
  const isChilled = plan.steps.some((step) => step.verb === 'chillCurd');
  if (stretch === -1 || drain === -1 || isChilled || last === null || phase === 'after' || phase === 'milk') return [];
  const isRest = phase === 'drained' && running?.step.verb === 'restToAcid';
  const after = phase === 'drained' ? last : plan.steps[drain];
  if (after === undefined || (phase === 'drained' && running !== null && !isRest)) return [];
  const drainedMin = situation.forecast.steps[drain]?.endMin.p50 ?? nowMin;
  const minutes = Math.max(
    situation.untilTomorrowMin - (phase === 'drained' ? 0 : Math.max(drainedMin - nowMin, 0)),
    60,
  );
  const chill: Departure = { kind: 'chill', afterStepId: after.id, atC: FRIDGE_C, minutes };
  const ends: Departure[] = isRest ? [{ kind: 'minutes', stepId: after.id, minutes: Math.max(nowMin - running.startedMin, 0) }] : []; // prettier-ignore
  return [
    {
      id: 'chill',
      kind: 'chill',
      fields: { atC: FRIDGE_C, minutes, when: phase === 'drained' ? 'now' : 'drained' },
      choice: { departures: [chill, ...ends] },
      risks: ['coldAcid', 'coldFridge'],
      source: PRACTICE,
    },
  ];
}
