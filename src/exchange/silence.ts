import type { AssumedStep } from '../forecast/assumed.ts';
import type { PlannedStep } from '../make/plan.ts';
import { NOBODY } from '../record/alarm.ts';
import type { BatchRecord, Noted, RecordedStep } from '../record/batch-record.ts';

/** A make of which nobody has noted anything for so long is taken to go on as planned, and is asked about. Our own choice. */
export const SILENT_AFTER_MIN = 90;
const MS_PER_MIN = 60_000;

/** A silence in a make under way that nobody has yet accounted for. */
export interface Silence {
  /** When the last thing before it was noted, milliseconds UTC. */
  readonly sinceAt: number;
  /** What its answer is kept under. */
  readonly alarmId: string;
}

/**
 * The last silence of a make, if it still has to be asked about: no step was begun or ended after it and nobody answered.
 * A reading alone does not say where the make is, so it ends no silence.
 *
 * @param input.steps  of the plan: once all are over there is nothing to assume
 */
export function silenceOf(input: {
  readonly record: BatchRecord;
  readonly steps: readonly Pick<PlannedStep, 'id'>[];
  readonly nowAt: number;
}): Silence | null {
  const { record, steps, nowAt } = input;
  if (record.steps.length === 0 || record.finishedAt !== null) return null;
  const over = new Set(record.steps.filter((step) => step.endedAt !== null).map((step) => step.stepId));
  if (steps.every((step) => over.has(step.id))) return null;
  // When somebody was at the make: as things were written down, however long ago they happened. That nobody was is noted by no one.
  const noted = record.entries
    .filter(({ kind, body }) => !(kind === 'alarmAnswered' && body['answer'] === NOBODY))
    .map((entry) => ({ at: Math.max(entry.loggedAt, entry.at), entry }))
    .filter(({ at }) => at <= nowAt)
    .sort((a, b) => a.at - b.at);
  let last: Silence | null = null;
  for (const [index, { at }] of noted.entries()) {
    const next = noted[index + 1];
    if ((next?.at ?? nowAt) - at >= SILENT_AFTER_MIN * MS_PER_MIN) last = { sinceAt: at, alarmId: `silence.${at}` };
    if (last === null || next === undefined) continue;
    const { kind, body } = next.entry;
    const isStep = kind === 'stepStarted' || kind === 'stepEnded';
    if (isStep || (kind === 'alarmAnswered' && body['alarmId'] === last.alarmId)) last = null;
  }
  return last;
}

/**
 * The record as it would stand had the plan been kept: for showing where the make probably is, never for keeping.
 * What is assumed carries no event and no person.
 */
export function withAssumed(input: {
  readonly record: BatchRecord;
  readonly assumed: readonly AssumedStep[];
  readonly steps: readonly PlannedStep[];
}): BatchRecord {
  const { record, assumed, steps } = input;
  const at = (elapsedMin: number): number => record.zeroAt + Math.round(elapsedMin * MS_PER_MIN);
  const known = new Map(record.steps.map((step) => [step.stepId, step]));
  for (const { stepId, startMin, endMin } of assumed) {
    const noted = known.get(stepId);
    const endedAt = endMin === null ? null : at(endMin);
    const asPlanned: RecordedStep = { stepId, startedAt: at(startMin), endedAt, said: null, startEventId: null, endEventId: null }; // prettier-ignore
    known.set(stepId, noted === undefined ? asPlanned : { ...noted, endedAt: noted.endedAt ?? endedAt });
  }
  const added = assumed.flatMap(({ stepId, endMin }): Noted<'added'>[] => {
    const ingredient = steps.find((step) => step.id === stepId)?.set.ingredient;
    if (endMin === null || typeof ingredient !== 'string') return [];
    const mark = { eventId: '', at: at(endMin), person: '', was: [] };
    return [{ ingredient, amount: 0, unit: '', fractionOfPlan: 1, ...mark }];
  });
  return { ...record, steps: [...known.values()], added: [...record.added, ...added] };
}
