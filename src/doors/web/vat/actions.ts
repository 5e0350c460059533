import { JUDGEMENT_GRADES } from '../../../make/judgement.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { BatchBody, BatchKind } from '../../../record/event.ts';
import { openItems, type Pause } from './get-ready.ts';
import { judgementAwaited } from './readiness.ts';
import type { Standing } from './current-step.ts';
import type { Telling } from './said.ts';

/** One event to be noted: kind and body; the log client adds the rest. */
export type Entry = {
  readonly [K in BatchKind]: {
    readonly kind: K;
    readonly body: BatchBody<K>;
    /** Where it was not now: milliseconds UTC. */
    readonly happenedAt?: number;
  };
}[BatchKind];

/** The one filled action of the card, in the words spoken at the vat, and what it notes. */
export interface MainAction {
  readonly label: string;
  readonly entries: readonly Entry[];
}

/** What the main action is now: begin, flecks, the step's own end, or nothing while weighing and closing are left. */
export function mainAction(input: {
  readonly standing: Standing;
  readonly plan: Plan;
  readonly record: BatchRecord;
  readonly pauses: readonly Pause[];
  readonly nowAt: number;
  readonly telling: Telling;
}): MainAction | null {
  const { standing, telling, record, nowAt } = input;
  const { step } = standing;
  if (step === null) return null;
  if (standing.stage === 'get-ready')
    return { label: telling.say('vat:main.start'), entries: [...zeroMoved({ record, nowAt }), begin(step)] };
  if (standing.stage === 'between')
    return { label: telling.say('vat:main.begin', { step: step.name }), entries: [begin(step)] };
  const flecks = flecksEntry({ step, plan: input.plan, record, nowAt });
  if (flecks !== null) return { label: telling.say('vat:main.flecks'), entries: [flecks] };
  return { label: step.done, entries: endOf(input) };
}

/** Ends the running step, with what its own words claim, and begins the next unless a pause still has open items. */
export function endOf(input: {
  readonly standing: Standing;
  readonly plan: Plan;
  readonly record: BatchRecord;
  readonly pauses: readonly Pause[];
  /** What went in, as a share of the plan, where the step adds something. */
  readonly fractionOfPlan?: number;
}): readonly Entry[] {
  const { standing, plan, record, pauses } = input;
  const { step, index } = standing;
  if (step === null) return [];
  const next = plan.steps[index + 1];
  const pause = pauses.find((one) => one.stepId === next?.id);
  const mustPause = pause !== undefined && openItems(pause, record).length > 0;
  return [
    ...additionOf({ step, plan, fractionOfPlan: input.fractionOfPlan ?? 1 }),
    ...claimOf({ step, record, startedAt: standing.startedAt ?? 0 }),
    { kind: 'stepEnded', body: { stepId: step.id, said: step.done } },
    ...(next === undefined || mustPause ? [] : [begin(next)]),
  ];
}

/** A start this near the planned one needs no new zero (common practice, no source). */
const SAME_START_MS = 90_000;

/** The make's minute zero is when it really begins: a start earlier or later than planned sets the opening right. */
function zeroMoved(input: { readonly record: BatchRecord; readonly nowAt: number }): readonly Entry[] {
  const { record, nowAt } = input;
  const opened = record.entries.find((entry) => entry.kind === 'batchOpened' && entry.retracted === null);
  if (opened === undefined || Math.abs(nowAt - record.zeroAt) < SAME_START_MS) return [];
  const body = { ...opened.body, zeroAt: Math.round(nowAt) };
  return [{ kind: 'corrected', body: { replaces: opened.eventId, kind: 'batchOpened', body } }];
}

const begin = (step: PlannedStep): Entry => ({ kind: 'stepStarted', body: { stepId: step.id } });

/** What went in, for a step that adds something; nothing for the others. */
export function additionOf(input: {
  readonly step: PlannedStep;
  readonly plan: Plan;
  readonly fractionOfPlan: number;
}): readonly Entry[] {
  const { step, plan, fractionOfPlan } = input;
  const ingredient = step.set.ingredient;
  if (step.verb !== 'add' || typeof ingredient !== 'string') return [];
  const amount = plan.amounts.find((one) => one.stepId === step.id);
  return [
    {
      kind: 'added',
      body: {
        ingredient,
        amount: (amount?.value ?? 0) * fractionOfPlan,
        unit: amount?.unit ?? '',
        fractionOfPlan,
      },
    },
  ];
}

/** "It stretches" is a judgement as well as an end, unless this step has a grade as far on already. */
function claimOf(input: {
  readonly step: PlannedStep;
  readonly record: BatchRecord;
  readonly startedAt: number;
}): readonly Entry[] {
  const awaited = judgementAwaited(input.step);
  if (awaited === null) return [];
  const grades: readonly string[] = JUDGEMENT_GRADES[awaited.judgement];
  const noted = input.record.judgements.some(
    (judged) =>
      judged.judgement === awaited.judgement &&
      judged.at >= input.startedAt &&
      endsStep({ step: input.step, grades, grade: judged.grade }),
  );
  return noted ? [] : [{ kind: 'judged', body: { ...awaited, how: 'said' } }];
}

/** Minutes from rennet in to now, for the first flecks; null where none are awaited or they were noted. */
export function flecksEntry(input: {
  readonly step: PlannedStep;
  readonly plan: Plan;
  readonly record: BatchRecord;
  readonly nowAt: number;
}): Entry | null {
  const { step, record, nowAt } = input;
  if (!step.until.of.some((condition) => condition.kind === 'flocculation')) return null;
  if (record.readings.some((reading) => reading.quantity === 'flocculationMin')) return null;
  const rennetAt = rennetInAt(record);
  if (rennetAt === null) return null;
  const value = Math.round(((nowAt - rennetAt) / 60_000) * 10) / 10;
  return { kind: 'reading', body: { quantity: 'flocculationMin', value, sample: 'milk' } };
}

/** When the rennet went in, as noted. */
export const rennetInAt = (record: BatchRecord): number | null =>
  record.added.find((addition) => addition.ingredient === 'rennet')?.at ?? null;

/** Grades of a judgement after which this step may end: the awaited one and everything beyond it. */
export function endsStep(input: {
  readonly step: PlannedStep;
  readonly grades: readonly string[];
  readonly grade: string;
}): boolean {
  const awaited = judgementAwaited(input.step);
  if (awaited === null) return false;
  const wanted = input.grades.indexOf(awaited.grade);
  return wanted !== -1 && input.grades.indexOf(input.grade) >= wanted;
}

/** The fleck time times the make's multiplier, from rennet in. */
export function cutByFlecksMin(input: {
  readonly step: PlannedStep;
  readonly record: BatchRecord;
  readonly telling: Telling;
}): number | null {
  const condition = input.step.until.of.find((one) => one.kind === 'flocculation');
  const flecks = input.record.readings.findLast((reading) => reading.quantity === 'flocculationMin');
  const rennetAt = rennetInAt(input.record);
  if (condition === undefined || flecks === undefined || rennetAt === null) return null;
  return (rennetAt - input.telling.zeroAt) / 60_000 + flecks.value * condition.multiplier.value;
}
